"""Every built page, read as a browser would: links, names, headings, valid HTML."""
import re
from collections import Counter
from dataclasses import dataclass, field
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import unquote, urlsplit

import html5lib
import pytest

VOID = {"area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source", "track", "wbr"}
DRAWING = re.compile(r"<svg\b(?=[^>]*\bviewBox)[^>]*>(?:(?!</svg>).)*", re.S)
HEAVIEST = 60_000  # bytes of HTML
FETCH = re.compile(r"""(?:url\(|import |fetch\(|src\s*=\s*)["']?(?:https?:)?//""")


@dataclass
class Read(HTMLParser):
    """What one page links to, which names it gives, and its headings in order."""

    links: list[str] = field(default_factory=list)
    ids: list[str] = field(default_factory=list)
    headings: list[int] = field(default_factory=list)
    bare_images: int = 0
    refers: list[str] = field(default_factory=list)

    def __post_init__(self):
        super().__init__()
        self.within = 0

    def handle_starttag(self, tag, attributes):
        given = dict(attributes)
        self.links.extend(given[key] for key in ("href", "src", "xlink:href") if given.get(key))
        if given.get("id"):
            self.ids.append(given["id"])
        for key in ("aria-labelledby", "aria-describedby", "for", "headers"):
            self.refers.extend((given.get(key) or "").split())
        if tag == "img" and given.get("alt") is None:
            self.bare_images += 1
        if self.within or tag == "article":
            self.within += tag not in VOID
            if re.fullmatch("h[1-6]", tag):
                self.headings.append(int(tag[1]))

    def handle_startendtag(self, tag, attributes):
        within = self.within
        self.handle_starttag(tag, attributes)
        self.within = within

    def handle_endtag(self, tag):
        self.within = max(0, self.within - 1) if self.within else 0


def read(path: Path) -> Read:
    page = Read()
    page.feed(path.read_text(encoding="utf-8"))
    return page


def pages_of(site):
    return {path.relative_to(site).as_posix(): read(path) for path in sorted(site.rglob("*.html"))}


@pytest.fixture(scope="session")
def pages(site):
    return pages_of(site)


def broken_links(site, pages):
    faults = []
    for name, page in pages.items():
        for link in page.links:
            target = urlsplit(link)
            if target.scheme in ("data", "mailto"):
                continue
            if target.scheme or target.netloc or target.path.startswith("/"):
                faults.append(f"{name}: {link} leads out of the folder")
                continue
            to = name if not target.path else (Path(name).parent / unquote(target.path)).as_posix()
            to = Path(site, to).resolve().relative_to(site.resolve()).as_posix() if to != name else name
            if target.path in (".", "./", "..") or not (site / to).is_file():
                faults.append(f"{name}: {link} leads to no file")
            elif target.fragment and to in pages and unquote(target.fragment) not in pages[to].ids:
                faults.append(f"{name}: {link} leads to no place on its page")
    return faults


def html_faults(path):
    parser = html5lib.HTMLParser(namespaceHTMLElements=False)
    parser.parse(path.read_text(encoding="utf-8"))
    return [f"{path.name}, line {at[0]}: {code} {about}" for at, code, about in parser.errors]


def test_links_of_the_small_course_lead_somewhere(small_site):
    """Hand-written and made pages link to each other and to their assets."""
    assert broken_links(small_site, pages_of(small_site)) == []


def test_a_broken_link_would_be_seen(small_site):
    """The link check itself: a missing page, a missing place and an address outside are each told."""
    page = small_site / "tilt.html"
    wrong = '<a href="no.html">a</a><a href="bench.html#no">b</a><a href="https://example.org">c</a>'
    page.write_text(page.read_text().replace("</h1>", "</h1>" + wrong, 1))
    assert len(broken_links(small_site, pages_of(small_site))) == 3


def test_html_of_the_small_course_is_valid(small_site):
    """The adapter and the theme give pages that parse without a fault."""
    assert [fault for path in small_site.rglob("*.html") for fault in html_faults(path)] == []


def test_every_link_leads_somewhere_in_the_folder(site, pages):
    """No link, script, style or picture of any page is missing or outside."""
    assert broken_links(site, pages)[:20] == []


def test_no_name_twice_on_a_page(pages):
    """Ids are unique on each page, and what refers to one finds it."""
    faults = [f"{name}: {twice}" for name, page in pages.items()
              for twice, count in Counter(page.ids).items() if count > 1]
    faults += [f"{name}: nothing is called {missing}" for name, page in pages.items()
               for missing in set(page.refers) - set(page.ids)]
    assert faults[:20] == []


def test_headings_are_in_order(pages):
    """One h1 a page, first; no level left out on the way down."""
    faults = []
    for name, page in pages.items():
        if page.headings[:1] != [1] or page.headings.count(1) != 1:
            faults.append(f"{name}: {page.headings}")
        faults.extend(f"{name}: h{above} then h{below}" for above, below in
                      zip(page.headings, page.headings[1:]) if below > above + 1)
    assert faults[:20] == []


def test_pictures_have_words(site, pages):
    """Every picture has a text alternative."""
    assert [name for name, page in pages.items() if page.bare_images] == []
    for name in pages:
        for drawing in DRAWING.findall((site / name).read_text()):
            if 'role="img"' in drawing:
                assert re.search(r"<title\b|aria-label", drawing), name


def test_html_is_valid(site, pages):
    """Hand-written and group pages all, worked pages one in ten (they come from one template)."""
    worked = [name for name in pages if name.startswith(("joints/", "working/", "making/", "fits/"))]
    chosen = [name for name in pages if name not in worked] + worked[::10]
    assert [fault for name in chosen for fault in html_faults(site / name)][:20] == []


def test_there_are_enough_worked_pages(pages):
    """The demo grid gives about a thousand worked joints."""
    assert 950 <= sum(name.startswith("joints/") for name in pages) <= 1100


def test_worked_pages_are_light(site, pages):
    """A phone on a slow connection, or a folder of a thousand joints on a memory stick."""
    folders = ("joints/", "working/", "making/", "fits/", "parts/")
    heavy = [f"{name}: {weight}" for name in pages if name.startswith(folders)
             if (weight := (site / name).stat().st_size) > HEAVIEST]
    assert heavy == []


def test_every_joint_has_its_working(pages):
    """The four pages of a joint come together."""
    stems = {folder: {name.partition("/")[2] for name in pages if name.startswith(f"{folder}/")}
             for folder in ("joints", "working", "making", "fits")}
    assert stems["joints"] == stems["working"] == stems["making"] == stems["fits"]


def test_the_guide_answers_what_the_navigation_asks(pages):
    """The pages that the contract names are there."""
    for name in ("index", "choose", "layouts", "charts", "joints", "parts", "method", "checks", "glossary",
                 "sources", "safety", "costs", "shopping", "tools"):
        assert f"{name}.html" in pages


def test_every_page_carries_the_revision(site, pages):
    """A printed or copied page tells which data and code made it."""
    (mark,) = set(re.findall(r"Revision ([0-9a-f]{8}), \d{4}-\d\d-\d\d", (site / "index.html").read_text()))
    assert [name for name in pages if f"Revision {mark}, " not in (site / name).read_text()] == []


def test_nothing_in_the_site_names_an_address_to_fetch_from(site):
    """Styles and scripts of our own ask for nothing outside the folder."""
    of_theme = {"stylesheets", "javascripts"}
    ours = [path for path in (site / "assets").rglob("*")
            if path.suffix in (".css", ".js") and not of_theme & set(path.parts)]
    assert ours and [path.name for path in ours if FETCH.search(path.read_text())] == []
