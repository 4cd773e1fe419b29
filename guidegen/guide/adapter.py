"""The thin adapter to MkDocs: the only file that imports it, so that another builder can take its place."""

import html
import logging
import os
import re
from contextlib import contextmanager
from pathlib import Path

from guidegen.errors import BadInput, Mistake
from guidegen.guide.page import Guide, scrolling_tables
from guidegen.guide.search_words import search_words

LOG = logging.getLogger("mkdocs")
BLANK = re.compile(r"\s*\n\s*")  # the theme's indentation: a third of what it adds to a page
BETWEEN = re.compile(
    r"(?<=>)\n|\n(?=</)"
)  # a line's end after or before a tag: the theme sets boxes, not words
CLIPPED = re.compile(
    r'(class="md-nav__link[^>]*>)<span class="md-ellipsis">([^<]*)</span>'
)  # our links wrap instead
SEARCH_DIALOG = 'data-md-component="search" role="dialog"'


def build_site(course_folder: Path, guide: Guide, site: Path, timestamp: int, foot: str) -> None:
    """Write the whole site: hand-written pages through Markdown, the guide's own pages as they are.

    `site` is emptied first. `timestamp` (seconds since 1970) is the only time that gets into files;
    `foot` is a line of HTML for the foot of every page. Anything MkDocs warns of stops the build:
    raises BadInput with all warnings.
    """
    with _fixed_date_and_warnings_as_mistakes(timestamp):
        from mkdocs.commands.build import build  # heavy: loaded only when a site is built
        from mkdocs.config import load_config

        config = load_config(str(course_folder / "mkdocs.yml"), site_dir=str(site), strict=True)
        config.copyright = " · ".join(filter(None, (config.copyright, foot)))
        if not config.site_url:  # these two need to know the address of the site
            config.theme.static_templates -= {"404.html", "sitemap.xml"}
        config.extra_css = [*config.extra_css, *guide.styles]
        config.extra_javascript = [*config.extra_javascript, *guide.scripts]
        config.plugins["guide"] = _pages_plugin(guide)
        build(config)


def _close(html_of_theme: str) -> str:
    """What the theme puts round a page, without its indentation and line ends."""
    return CLIPPED.sub(r"\1\2", BETWEEN.sub("", BLANK.sub("\n", html_of_theme)))


def _pages_plugin(guide):
    from mkdocs.plugins import BasePlugin
    from mkdocs.structure.files import File, InclusionLevel
    from mkdocs.structure.toc import AnchorLink, TableOfContents

    ours = {page.path.removesuffix(".html") + ".md": page for page in guide.pages}

    def contents(headings):
        above = [AnchorLink("", "", 0)]
        for level, anchor, text in headings:
            while above[-1].level >= level:
                above.pop()
            above[-1].children.append(AnchorLink(html.escape(text), anchor, level))
            above.append(above[-1].children[-1])
        return TableOfContents(above[0].children)

    def _with_scripts(foot, page):
        made = ours.get(page.file.src_uri)
        root = "../" * page.file.src_uri.count("/")
        own = "".join(f'<script src="{root}{path}"></script>' for path in (made.scripts if made else ()))
        return foot.replace("</body>", f"{own}</body>")

    class GuidePages(BasePlugin):
        def on_files(self, files, config):
            for path, content in (dict.fromkeys(ours, "") | dict(guide.files)).items():
                if files.get_file_from_path(path):
                    LOG.warning("page '%s' is made by the guide: give the written one another name", path)
                else:
                    files.append(
                        File.generated(config, path, content=content, inclusion=InclusionLevel.NOT_IN_NAV)
                    )

        def on_page_markdown(self, markdown, page, **_):
            if made := ours.get(page.file.src_uri):
                page.meta = {
                    "title": html.escape(made.title),
                    "description": html.escape(made.description),
                    "search": {"exclude": not made.in_search},
                    "tags": search_words(made.path),
                }

        def on_page_content(self, content, page, **_):
            if made := ours.get(page.file.src_uri):
                page.toc, page.present_anchor_ids = contents(made.toc), made.anchors
            return made.body if made else scrolling_tables(content)

        def on_post_page(self, output, page, **_):  # the theme leaves a screen reader guessing what opened
            head, article, rest = output.partition("<article")
            body, end, foot = rest.partition("</article>")
            head = head.replace(SEARCH_DIALOG, SEARCH_DIALOG + ' aria-label="Search"')
            if 'id="__toc"' not in head:  # the theme's label for a switch that it left out
                head = head.replace(' for="__toc"', "")
            return _close(head) + article + body + end + _with_scripts(_close(foot), page)

    return GuidePages()


@contextmanager
def _fixed_date_and_warnings_as_mistakes(timestamp):
    environment, propagated, heard = dict(os.environ), LOG.propagate, []
    os.environ.update(NO_MKDOCS_2_WARNING="1", SOURCE_DATE_EPOCH=str(timestamp))
    ear = logging.Handler(logging.WARNING)
    ear.emit = lambda record: heard.append(record.getMessage())
    LOG.addHandler(ear)
    LOG.propagate = False
    try:
        yield
    except (Exception, SystemExit) as stop:  # strict MkDocs ends with its own kind of SystemExit
        if not heard and type(stop).__module__ != "mkdocs.exceptions":
            raise
        raise BadInput(map(_mistake, heard or [str(stop)])) from stop
    finally:
        LOG.propagate = propagated
        LOG.removeHandler(ear)
        os.environ.clear()
        os.environ.update(environment)


def _mistake(message):
    page = re.search(r"(?:[Ff]ile|page) '([^']+)'", message)
    return Mistake(
        f"docs/{page[1]}" if page else "mkdocs.yml",
        "site build",
        " ".join(message.split()).rstrip("."),
        "a build without warnings",
    )
