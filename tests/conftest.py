"""What several tests need: the built sites, a real browser, and the rule that CI skips nothing."""
import os
import shutil
import subprocess
import sys
from contextlib import contextmanager
from pathlib import Path

import pytest

from guidegen.guide.page import Guide, Heading, Page
from guidegen.guide.publish import publish
from guidegen.revision import Revision

ROOT = Path(__file__).parent.parent
SMALL_COURSE = ROOT / "tests" / "small_course"
COURSE_FILES = ("mkdocs.yml", "data", "docs", "shared")
SWITCHES = ("--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
            "--disable-background-networking", "--disable-component-update", "--disable-sync")


def pytest_collection_modifyitems(items):
    """Keep all tests of one built site in one process, so that it is built once."""
    for item in items:
        for site in {"site", "demo"} & set(item.fixturenames):
            item.add_marker(pytest.mark.xdist_group("site"))


@pytest.hookimpl(trylast=True)
def pytest_sessionfinish(session):
    """A skipped test is a failed one in CI."""
    reporter = session.config.pluginmanager.get_plugin("terminalreporter")
    if reporter and os.environ.get("CI") and reporter.stats.get("skipped"):
        reporter.write_line("\nskipped in CI, which counts as a failure:", red=True)
        for report in reporter.stats["skipped"]:
            reporter.write_line(f"  {report.nodeid}: {report.longrepr}")
        session.exitstatus = pytest.ExitCode.TESTS_FAILED


@pytest.fixture
def small_guide():
    """Two made pages with what breaks most easily: a table, a formula, a drawing, nested headings."""
    body = (
        '<h1>Tilt &amp; lean</h1>\n'
        '<p>A word to find: tiltkeyword. Back to <a href="index.html">home</a>.</p>\n'
        '<h2 id="table">Table</h2>\n<table class="numbers"><caption>Tilt</caption><thead><tr>'
        '<th scope="col">separation</th></tr></thead>\n<tbody><tr><td>24 mm</td></tr></tbody></table>\n'
        '<h3 id="formula">Formula</h3>\n'
        '<p><math><mi>θ</mi><mo>=</mo><mfrac><mi>c</mi><mi>B</mi></mfrac></math></p>\n'
        '<h2 id="drawing">Drawing</h2>\n<svg viewBox="0 0 10 10" width="100" height="100" role="img">'
        '<title>A circle</title><circle cx="5" cy="5" r="4" fill="none" stroke="currentColor"/></svg>\n')
    toc = (Heading(2, "table", "Table"), Heading(3, "formula", "Formula"), Heading(2, "drawing", "Drawing"))
    outside = '<h1>One</h1>\n<p>hiddenkeyword <a href="../tilt.html#formula">formula</a></p>\n'
    assets = {path.relative_to(ROOT / "docs").as_posix(): path.read_bytes()
              for path in (ROOT / "docs" / "assets").rglob("*") if path.is_file()}
    return Guide(
        (Page("tilt.html", "Tilt & lean", body, toc, in_search=True, description='"Tilt" & lean'),
         Page("joints/one.html", "One", outside)),
        {"assets/ids.json": b'["one"]'} | assets)


@pytest.fixture
def small_site(small_guide, tmp_path):
    """The small course, published."""
    return publish(SMALL_COURSE, small_guide, Revision("abcd1234", 1_700_000_000), tmp_path / "site")


@pytest.fixture(scope="session")
def demo(tmp_path_factory):
    """A copy of the demo course in a folder of its own, under a path with a space."""
    course = tmp_path_factory.mktemp("demo course")
    for name in COURSE_FILES:
        source = ROOT / name
        if source.is_dir():
            shutil.copytree(source, course / name)
        elif source.exists():
            shutil.copy2(source, course / name)
    return course


@pytest.fixture(scope="session")
def site(demo):
    """The demo guide, built as a person builds it."""
    build_demo(demo)
    return demo / "site"


def build_demo(course, **environment):
    """Run `guidegen build` in a process of its own; fails with what it said."""
    run = subprocess.run([sys.executable, "-m", "guidegen", "build", str(course)], cwd=ROOT,
                         capture_output=True, text=True, env=os.environ | environment, timeout=600)
    if run.returncode != 0:
        pytest.fail(f"guidegen build gave {run.returncode}:\n{run.stderr[-3000:]}", pytrace=False)
    return run


@pytest.fixture(scope="session")
def browser():
    """The system's Chromium."""
    from playwright.sync_api import sync_playwright

    found = next(filter(None, map(shutil.which, ("chromium", "chromium-browser", "google-chrome"))), None)
    if found is None:
        pytest.fail("no Chromium on this machine: `make test` says how to get it", pytrace=False)
    with sync_playwright() as playwright:
        chromium = playwright.chromium.launch(executable_path=found, args=SWITCHES)
        yield chromium
        chromium.close()


@pytest.fixture
def visit(browser):
    """Opens files as a reader does; at the end, nothing may have left the folder or complained."""
    with watched(browser) as (open_file, complaints):
        yield open_file
    assert not complaints, "\n".join(complaints)


@contextmanager
def watched(browser):
    """What opens a file in a fresh window, and the list of everything that was wrong meanwhile."""
    contexts, complaints = [], []

    def open_file(path: Path, scheme="light", width=1280, at=""):
        context = browser.new_context(color_scheme=scheme, viewport={"width": width, "height": 900})
        contexts.append(context)
        page = context.new_page()
        page.on("request", lambda request: request.url.startswith(("file:", "data:", "blob:"))
                or complaints.append(f"a request left the folder: {request.url}"))
        page.on("requestfailed", lambda request: complaints.append(f"not found: {request.url}"))
        page.on("console", lambda message: message.type in ("warning", "error")
                and complaints.append(f"console {message.type}: {message.text}"))
        page.on("pageerror", lambda error: complaints.append(f"script error: {error}"))
        assert path.is_file(), f"the site has no page {path.name}"
        page.goto(path.as_uri() + at)
        return page

    yield open_file, complaints
    for context in contexts:
        context.close()
