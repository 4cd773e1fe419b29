"""The built folder in a real browser: nothing leaves it, nothing complains, everybody can read it."""
import pytest
from axe_playwright_python.sync_playwright import Axe
from conftest import watched

SERIOUS = ("serious", "critical")
SCHEMES = ("light", "dark")
PHONE, DESK = 390, 1280
# from a folder the check may not load further files, so it must not try (preload)
ASK = {"resultTypes": ["violations"], "preload": False}
NAMES = {"home": "index", "chart": "charts", "table": "joints"}
PAGES = ("home", "part", "chart", "table", "layouts", "choose", "glossary", "safety", "method",
         "worked 1", "worked 2", "worked 3", "working 2")


def findings(page):
    """What the accessibility check holds against a page: rule, where, why."""
    found = Axe().run(page, options=ASK).response["violations"]
    return [f"{rule['id']} ({rule['impact']}): {node['target']} {node['failureSummary']}"
            for rule in found if rule["impact"] in SERIOUS for node in rule["nodes"]]


def wider_than_the_window(page):
    return page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")


def search_for(page, word):
    """Types into the search box and gives the files of the pages found."""
    if page.viewport_size["width"] < 960:
        page.locator("label[for=__search].md-header__button").click()
    page.locator("input[name=query]").click()
    page.locator("input[name=query]").press_sequentially(word)
    page.locator(".md-search-result__link").first.wait_for()
    found = page.locator(".md-search-result__link").evaluate_all("links => links.map(link => link.href)")
    return {address.split("#")[0].split("?")[0].rsplit("/", 1)[1] for address in found}


def chosen(site, what):
    """The file of a page by what it is; worked pages from the start, the middle and the end."""
    if what == "part":
        return min((site / "parts").glob("*.html"))
    if what.startswith("work"):
        files = sorted((site / ("working" if what.startswith("working") else "joints")).glob("*.html"))
        return files[(int(what[-1]) - 1) * (len(files) - 1) // 2]
    return site / f"{NAMES.get(what, what)}.html"


def test_small_course_is_quiet(small_site, visit):
    """Adapter and theme alone: no request leaves the folder, nothing complains."""
    for name in ("index.html", "tilt.html", "joints/one.html"):
        assert visit(small_site / name).locator("article h1").is_visible()


def test_search_from_a_folder_finds_written_and_made_pages(small_site, visit):
    """Without a server: a word of a hand-written page, a word of a made page, nothing of number pages."""
    assert search_for(visit(small_site / "index.html"), "hexkeyword") == {"bench.html"}
    assert search_for(visit(small_site / "joints" / "one.html", width=PHONE), "tiltkeyword") == {"tilt.html"}


def test_a_request_off_the_folder_would_be_seen(small_site, browser):
    """The watch itself: a page that asks for something outside, or for a missing file, is told on."""
    page = small_site / "tilt.html"
    page.write_text(page.read_text().replace(
        "</h1>", '</h1><img src="http://127.0.0.1:9/x.png" alt=""><script src="gone.js"></script>', 1))
    with watched(browser) as (open_file, complaints):
        open_file(page)
    told = "\n".join(complaints)
    assert "left the folder: http://127.0.0.1:9/x.png" in told and "not found" in told and "gone.js" in told


@pytest.mark.parametrize("width", [DESK, PHONE])
@pytest.mark.parametrize("scheme", SCHEMES)
@pytest.mark.parametrize("what", PAGES)
def test_page_is_quiet_and_readable(site, visit, what, scheme, width):
    """Home, part, chart, table, worked pages: no request off the folder, no complaint, no serious finding."""
    page = visit(chosen(site, what), scheme, width)
    assert findings(page) == []
    assert wider_than_the_window(page) <= 0


def test_narrowest_phone_shows_a_worked_page_without_sideways_scrolling(site, visit):
    """320 px wide, which is also a desk screen at four times the size."""
    assert wider_than_the_window(visit(chosen(site, "worked 1"), width=320)) <= 0


def test_search_of_the_guide(site, visit):
    """A word that stands on a hand-written page and one of a made group page are found from a folder."""
    page = visit(site / "index.html")
    assert "glossary.html" in search_for(page, "glossary")
    assert findings(page) == []
    assert "joints.html" in search_for(visit(chosen(site, "worked 2"), width=PHONE), "worked joints")


@pytest.mark.parametrize("word, page", [("overhung", "layouts.html"), ("slop", "glossary.html"),
                                        ("bushing", "choose.html"), ("sb-8x12x8", "sb-8x12x8.html")])
def test_search_finds_words_of_the_trade_and_parts(site, visit, word, page):
    """A layout, a layman's word, a part's name and a part's id lead to where they are explained."""
    assert page in search_for(visit(site / "index.html"), word)


# What people type who do not know the trade's words, and which pages may stand first.
LAYMEN = {
    "slop": ["wobble.html"],
    "play": ["wobble.html"],
    "wiggle": ["wobble.html"],
    "wobbly": ["wobble.html", "trouble.html"],
    "loose": ["wobble.html", "trouble.html"],
    "tight": ["starting.html", "trouble.html"],
    "stuck": ["starting.html", "trouble.html"],
    "squeak": ["lasting.html", "trouble.html"],
    "rust": ["surroundings.html", "trouble.html", "glossary.html"],
    "inch": ["near-sizes.html"],
    "sb-8x12x8": ["sb-8x12x8.html"],
    "preload": ["glossary.html"],
}


def test_layman_words_lead_to_the_right_page_first(site, visit):
    """Typed one after the other into the search box of the built site; the first page found counts."""
    page = visit(site / "index.html")
    box, first = page.locator("input[name=query]"), page.locator(".md-search-result__link").first
    box.click()
    for word, wanted in LAYMEN.items():
        box.fill("")
        page.locator(".md-search-result__link").first.wait_for(state="detached")
        box.press_sequentially(word)
        first.wait_for()
        page.wait_for_timeout(300)
        found = first.get_attribute("href").split("?")[0].split("#")[0].rsplit("/", 1)[-1]
        assert found in wanted, (word, found)


def test_search_stays_quiet_for_short_words_and_numbers(site, visit):
    """Beginnings of words and numbers, which break an index of number tables, give results or none."""
    page = visit(site / "index.html")
    page.locator("input[name=query]").click()
    for word in ("s", "stiff", "0.13", "8x"):
        page.locator("input[name=query]").fill(word)
        page.wait_for_timeout(300)
    assert page.locator(".md-search-result__meta").inner_text() != ""


def test_a_page_reads_without_scripts(site, browser):
    """Drawing and summary are in the page itself, the working in its own."""
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(chosen(site, "worked 1").as_uri())
    assert page.locator("article svg").count() > 0 and page.locator("article table").first.is_visible()
    page.goto(chosen(site, "working 1").as_uri())
    assert page.locator("article math").count() > 20
    context.close()


def test_scheme_switch_reaches_drawings(site, visit):
    """The reader's switch, not only the system's wish, turns the ink of drawings light on dark."""
    page = visit(chosen(site, "worked 1"))
    ink = "getComputedStyle(document.querySelector('article svg')).color"
    before = page.evaluate(ink)
    page.locator("label[title='Switch to dark']").click()
    page.wait_for_function(f"{ink} !== '{before}'")
