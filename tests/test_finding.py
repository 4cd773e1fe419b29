"""Search by need and by filters, in a real browser, against the same search done here over evaluated joints."""
import json
import math
import random
from functools import cache

import pint
import pytest
from axe_playwright_python.sync_playwright import Axe
from test_browser import ASK, DESK, PHONE, SCHEMES, wider_than_the_window

from guidegen.guide.edition import Edition
from guidegen.guide.finder_data import NUMBERS, bearings_of, place_of, tools_of
from guidegen.joint import Worked, evaluate, make_joint

from guidegen.kit.reader import read_course, read_words

NEEDS, FILTERS = 250, 250
ROUNDING = 6e-5  # share, of the numbers in the file: five figures


@pytest.fixture(scope="module")
def edition(demo):
    """All joints of the course, evaluated in this process."""
    course = read_course(demo)
    named = [make_joint(course, raw, name) for name, raw in course.joints.items()]
    results = [evaluate(joint, course) for joint in (*named, *Worked(course).joints)]
    return Edition(course, tuple(results), read_words(demo / "shared"))


@pytest.fixture(scope="module")
def joints(site):
    """The columns as the pages load them."""
    text = (site / "assets" / "joints.js").read_text()
    return json.loads(text.removeprefix("window.guideJoints=").strip().removesuffix(";"))


def column(joints, key):
    return next(one["of"] for one in joints["numbers"] if one["key"] == key)


def words(joints, key):
    """Of each joint the key of one choice."""
    of = next(one for one in joints["choices"] if one["key"] == key)
    return [of["values"][place][0] for place in of["of"]]


def test_columns_are_what_the_joints_evaluate_to(edition, joints):
    assert joints["ids"] == [result.id for result in edition.results]
    for number in NUMBERS:
        found = column(joints, number.key)
        for result, shown in zip(edition.results, found, strict=True):
            value = number.of(result)
            assert (value is None) == (shown is None), (number.key, result.id)
            assert value is None or shown == pytest.approx(value, rel=ROUNDING), (number.key, result.id)
    assert words(joints, "state") == [result.state.replace(" ", "-") for result in edition.results]
    assert words(joints, "kit") == [result.joint.kit.id if result.joint.kit else "none" for result in edition.results]
    assert words(joints, "place") == [place_of(result) for result in edition.results]
    assert words(joints, "bearings") == [bearings_of(result.joint)[0] for result in edition.results]


def test_numbers_of_a_page_stand_in_the_columns(site, joints):
    """What a reader finds is what the joint's page says: cost, printed there by other code."""
    for n in range(0, len(joints["ids"]), 97):
        page = (site / "making" / f"{joints['ids'][n]}.html").read_text()
        assert f"{column(joints, 'cost')[n]:.2f}" in page


# By need -------------------------------------------------------------------------------------------------


def some_needs(joints, chance):
    """Needs as people type them, from loose to impossible."""
    kits = sorted(set(words(joints, "kit")))
    tools = [key for key, _ in joints["tools"]["values"]]
    stocks = [key for key, _ in joints["stocks"]["values"]]
    for _ in range(NEEDS):
        asked = {}
        if chance.random() < 0.8:
            asked["load"] = chance.choice(["500 g", "2 N", "20 N", "3 lbf", "2 lb", "1.5 kg", "60 N", "200 N"])
        if chance.random() < 0.6:
            asked["place"] = chance.choice(["between", "beyond"])
            if chance.random() < 0.7:
                asked["beyond"] = f"{chance.choice([0.2, 3, 7.5, 10, 12, 25])} mm"
        if chance.random() < 0.5:
            asked["arm"] = chance.choice(["60 mm", "100 mm", "8 in", "0.3 m"])
        if chance.random() < 0.6:
            asked["wobble"] = chance.choice(["0.1 mm", "0.5 mm", "1/32 in", "2 mm", "0.01 mm"])
        if chance.random() < 0.4:
            asked["start"] = chance.choice(["0.05 N", "10 g", "0.5 N", "1 oz", "3 N"])
        if chance.random() < 0.2:
            asked["push"] = chance.choice(["0.5 N", "2 N", "30 N"])
        if chance.random() < 0.3:
            asked["budget"] = chance.choice(["4", "6.50", "12 EUR"])
        if chance.random() < 0.3:
            asked["motion"] = chance.choice(["swing", "turn"])
        if chance.random() < 0.3:
            asked["kit"] = chance.choice(kits)
        if chance.random() < 0.3:
            asked["bearings"] = chance.choice(sorted(set(words(joints, "bearings"))))
        if chance.random() < 0.3:
            asked["tools"] = ",".join(chance.sample(tools, chance.randint(1, len(tools))))
        if chance.random() < 0.2:
            asked["stock"] = ",".join(chance.sample(stocks, 2))
        if chance.random() < 0.5:
            asked["sure"] = "care"
        if chance.random() < 0.6:
            asked["by"] = chance.choice(["cost", "wobble", "start", "mass", "apart"])
        yield asked


UNITS = pint.UnitRegistry()
WEIGHED = UNITS.Quantity(1, "standard_gravity")


@cache
def in_units(text, unit):
    """A typed quantity by a units library; a mass where a force is asked for is its weight."""
    if text is None:
        return None
    found = UNITS.Quantity(text.replace("/", " / ") if "/" in text else text)
    if unit == "N" and found.check("[mass]"):
        found *= WEIGHED
    return found.to(unit).magnitude


def fits(edition, tools, result, asked):
    """Whether a joint does what is asked, from its evaluation alone; None where it is too close to call."""
    joint, found = result.joint, result.quantities
    care = asked.get("sure") == "care"
    arm = in_units(asked.get("arm"), "mm") or edition.course.target_arm
    close = []

    def at_most(value, limit):
        if value is None:
            return False
        close.append(math.isclose(value, limit, rel_tol=1e-4))
        return value <= limit

    tests = [result.state == "holds" or care and result.state == "take care"]
    if "load" in asked:
        tests.append(at_most(in_units(asked["load"], "N"), joint.radial))
    if "push" in asked:
        tests.append(at_most(in_units(asked["push"], "N"), joint.axial * min(1, joint.arm / arm)))
    place = place_of(result)
    if asked.get("place") == "between":
        tests.append(place == "between")
    if asked.get("place") == "beyond":
        tests.append(place != "between")
        if "beyond" in asked:
            tests.append(result.inputs["overhang"].value >= in_units(asked["beyond"], "mm") - 0.5)
    if "wobble" in asked:
        seen = found["seen_tilt"].band
        tilt = seen.typical if care else seen.most
        tests.append(at_most(2 * arm * tilt, in_units(asked["wobble"], "mm")))
    if "start" in asked:
        force = found.get("start_force")
        value = None if force is None else force.typical if care or not force.band else force.band.most
        tests.append(value is not None and at_most(value * joint.arm / arm, in_units(asked["start"], "N")))
    if "budget" in asked:
        tests.append(at_most(found["cost"].typical, float(asked["budget"].split()[0])))
    if asked.get("motion"):
        tests.append(joint.motion.kind == asked["motion"])
    if "kit" in asked:
        tests.append(bool(joint.kit) and joint.kit.id == asked["kit"])
    if "bearings" in asked:
        tests.append(bearings_of(joint)[0] == asked["bearings"])
    if "tools" in asked:
        tests.append(tools[result.id] <= set(asked["tools"].split(",")))
    if "stock" in asked:
        tests.append({housing.stock.id for housing in joint.housings} <= set(asked["stock"].split(",")))
    return None if any(close) else all(tests)


RANKS = {
    "cost": lambda result, arm, care: result.quantities["cost"].typical,
    "wobble": lambda result, arm, care: (
        result.quantities["seen_tilt"].typical if care else result.quantities["seen_tilt"].band.most),
    "mass": lambda result, arm, care: result.quantities["mass"].typical,
    "apart": lambda result, arm, care: math.inf if result.joint.separation is None else result.joint.separation,
}


def test_needs_find_the_joints_that_meet_them(site, visit, edition, joints):
    """Each need is searched in the page and again here over the evaluated joints: same set, best first."""
    needs = list(some_needs(joints, random.Random(20260401)))
    page = visit(site / "find.html")
    answers = page.evaluate(
        "needs => needs.map(need => window.guideNeed.answer(window.guideNeed.needOf(Object.entries(need))))", needs)
    met, tools = 0, {result.id: set(tools_of(result, edition)) for result in edition.results}
    for asked, answer in zip(needs, answers, strict=True):
        found = [edition.results[n] for n in answer["fitting"]]
        ids = {result.id for result in found}
        for result in edition.results:
            fit = fits(edition, tools, result, asked)
            assert fit is None or fit == (result.id in ids), f"{asked} {result.id}"
        by, care = asked.get("by", "cost"), asked.get("sure") == "care"
        if by in RANKS:
            keys = [RANKS[by](result, None, care) for result in found]
            assert all(a <= b * (1 + ROUNDING) for a, b in zip(keys, keys[1:])), f"{asked} {keys}"
        assert len(answer["nearest"]) == min(3, len(joints["ids"]) - len(found))
        assert all(near["misses"] for near in answer["nearest"])
        met += bool(found)
    assert NEEDS / 4 < met < NEEDS  # some can be met, some cannot


def test_giving_up_one_thing_gives_as_many_as_the_button_says(site, visit, joints):
    """The count beside each thing to give up is the count after giving it up."""
    page = visit(site / "find.html")
    chance, tried = random.Random(7), 0
    for asked in some_needs(joints, chance):
        text = "&".join(f"{key}={value}" for key, value in asked.items())
        page.evaluate("text => { window.location.hash = text; }", text.replace(" ", "+"))
        page.wait_for_timeout(20)
        buttons = page.locator("#ways button")
        if page.locator("#none").is_visible() and buttons.count():
            told = int(buttons.first.inner_text().split()[0])
            buttons.first.click()
            said = page.locator("#found").inner_text()
            assert said.startswith(f"{told} worked joint"), (asked, told, said)
            tried += 1
        if tried == 12:
            break
    assert tried == 12


# By filters ------------------------------------------------------------------------------------------------


def test_filters_leave_what_they_say(site, visit, joints):
    """Random filters in the page and again here: the joints, the counts beside the choices, the order."""
    chance = random.Random(11)
    choices, numbers = joints["choices"], joints["numbers"]
    asked = []
    for _ in range(FILTERS):
        one = {"choices": {}, "least": {}, "most": {}, "near": {}, "sort": "state", "down": chance.random() < 0.3}
        for choice in chance.sample(choices, chance.randint(0, 3)):
            places = range(len(choice["values"]))
            one["choices"][choice["key"]] = chance.sample(places, min(len(places), chance.randint(1, 3)))
        for end in ("least", "most", "near"):
            for number in chance.sample(numbers, chance.choice([0, 0, 1, 2])):
                known = sorted(x for x in number["of"] if x is not None)
                one[end][number["key"]] = (known[len(known) // 3] + known[2 * len(known) // 3]) / 2 * 1.0003
        one["sort"] = "near" if one["near"] else chance.choice(["state", *(n["key"] for n in numbers)])
        asked.append(one)
    page = visit(site / "finder.html")
    answers = page.evaluate("""asked => asked.map(one => {
        const found = window.guideFinder.answer(one);
        return [found.joints, found.counts];
    })""", asked)
    some = 0
    for one, (found, counts) in zip(asked, answers, strict=True):
        def remains(n, but=None):
            return all(n_of(choice, n) in one["choices"].get(choice["key"], ()) or not one["choices"].get(choice["key"])
                       for choice in choices if choice is not but) and within(one, n)

        def within(one, n):
            return all(number["of"][n] is not None
                       and number["of"][n] >= one["least"].get(number["key"], -math.inf)
                       and number["of"][n] <= one["most"].get(number["key"], math.inf)
                       for number in numbers if number["key"] in one["least"] or number["key"] in one["most"])

        def n_of(choice, n):
            return choice["of"][n]

        left = [n for n in range(len(joints["ids"])) if remains(n)]
        assert sorted(found) == left, one
        for choice, told in zip(choices, counts, strict=True):
            with_one = [n for n in range(len(joints["ids"])) if remains(n, choice)]
            assert told == [sum(n_of(choice, n) == k for n in with_one) for k in range(len(choice["values"]))], one
        keys = [_sort_key(one, joints, n) for n in found]
        known = [key for key in keys if key is not None]
        assert keys[:len(known)] == known, "what has no such number comes last"
        assert known == sorted(known, reverse=one["down"]), one
        some += bool(found)
    assert some > FILTERS / 4


def _sort_key(one, joints, n):
    if one["sort"] == "state":
        return next(c for c in joints["choices"] if c["key"] == "state")["of"][n]
    if one["sort"] != "near":
        return column(joints, one["sort"])[n]
    far = 0.0
    for key, wanted in one["near"].items():
        number = next(number for number in joints["numbers"] if number["key"] == key)
        if number["of"][n] is None:
            return None
        far += ((number["of"][n] - wanted) / (number["spread"] or 1)) ** 2
    return math.sqrt(far)


# What people type ------------------------------------------------------------------------------------------


@pytest.mark.parametrize("text, kind, of, unit", [
    ("8 mm", "length", "8 mm", "mm"), ("5/16 in", "length", "0.3125 in", "mm"), ('0.3125"', "length", "0.3125 in", "mm"),
    ("1 1/2 in", "length", "1.5 in", "mm"), ("1-1/2in", "length", "1.5 in", "mm"), (".5 inch", "length", "0.5 in", "mm"),
    ("12cm", "length", "120 mm", "mm"), ("0.12 M", "length", "0.12 m", "mm"), ("500 g", "force", "500 g", "N"),
    ("2 lb", "force", "2 lb", "N"), ("5 lbf", "force", "5 lbf", "N"), ("16 oz", "force", "16 oz", "N"),
    ("1.2e1 N", "force", "12 N", "N"), ("0.03 kN", "force", "30 N", "N"), ("2 oz", "mass", "2 oz", "g"),
    ("1 ft", "length", "1 ft", "mm"), ("2 million", "count", "2000000", ""), ("+3 N", "force", "3 N", "N")])
def test_typed_quantities_are_read_as_a_units_library_reads_them(site, visit, text, kind, of, unit):
    read = visit(site / "find.html").evaluate("([text, kind]) => window.guideTyped.read(text, kind)", [text, kind])
    assert read["value"] == pytest.approx(in_units(of, unit), rel=1e-12)


@pytest.mark.parametrize("text, kind, says", [
    ("eight", "length", "not a number"), ("8", "length", "unit is missing"), ("8 N", "length", "no unit that fits"),
    ("1,5 mm", "length", "decimal comma"), ("-3 mm", "length", "more than zero"), ("0 mm", "length", "more than zero"),
    ("1/0 in", "length", "over zero"), ("1e999 mm", "length", "too large"), ("500 °", "force", "no unit that fits"),
    ("<img src=x>", "force", "not a number")])
def test_what_cannot_be_read_is_said_beside_the_field(site, visit, text, kind, says):
    page = visit(site / "find.html")
    field = page.locator({"length": "#need-arm", "force": "#need-load"}[kind])
    field.fill(text)
    field.press("Enter")
    assert says in page.locator(f"#{field.get_attribute('id')}-wrong").inner_text()
    assert field.get_attribute("aria-invalid") == "true"
    assert page.evaluate("document.activeElement.id") == field.get_attribute("id")
    assert "not understood" in page.locator("#found").inner_text()
    field.fill("")
    field.press("Enter")
    assert field.get_attribute("aria-invalid") is None


# As people use it ------------------------------------------------------------------------------------------

WALKS = {
    "a lamp arm that must not nod": {"load": "300 g", "arm": "250 mm", "wobble": "1.5 mm", "by": "wobble"},
    "a crank turned round and round": {"load": "10 N", "motion": "turn", "sure": "care"},
    "the cheapest inch lever": {"load": "1 lb", "kit": "in", "by": "cost", "sure": "care"},
}


@pytest.mark.parametrize("width", [PHONE, DESK])
@pytest.mark.parametrize("what", WALKS)
def test_from_home_to_a_joint_that_fits(site, visit, joints, what, width):
    """Home, need, joint: the page that opens says that it holds or asks for care, and shows its drawing."""
    page = visit(site / "index.html", width=width)
    page.locator(".way-in a").click()
    for name, text in WALKS[what].items():
        field = page.locator(f"[name={name}]")
        if not field.is_visible():
            page.locator("form details summary").click()
        if field.evaluate("field => field.tagName") == "SELECT":
            keys = field.locator("option").evaluate_all("options => options.map(option => option.value)")
            field.select_option(next(key for key in keys if key.startswith(text)))
        else:
            field.fill(text)
    page.get_by_role("button", name="Show the joints").click()
    assert page.locator("#found").inner_text()[0].isdigit()
    assert wider_than_the_window(page) <= 0
    page.locator("#fitting a").first.click()
    page.wait_for_load_state()
    assert "/joints/" in page.url
    assert page.locator("article h1").is_visible() and page.locator("article svg").first.is_visible()
    assert "does not hold" not in page.locator("article .state").first.inner_text()


def test_by_keyboard_alone(site, visit):
    """Tab to the first field, type, Enter; then Tab to the first joint, Enter."""
    page = visit(site / "find.html")
    _tab_to(page, "need-load")
    page.keyboard.type("500 g")
    page.keyboard.press("Enter")
    assert page.evaluate("document.activeElement.id") == "results"
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.closest('#fitting') !== null")
    page.keyboard.press("Enter")
    page.wait_for_url("**/joints/*.html")


def test_filters_by_keyboard_alone(site, visit):
    page = visit(site / "finder.html")
    page.locator("#filter input[name=kit]").first.focus()
    before = page.locator("#found").inner_text()
    page.keyboard.press("Space")
    assert page.locator("#found").inner_text() != before
    head = page.locator("#rows thead button", has_text="Cost")
    head.focus()
    page.keyboard.press("Enter")
    assert page.locator("#rows th[aria-sort=ascending]").inner_text().startswith("Cost")
    assert page.evaluate("document.activeElement.closest('th') !== null"), "the focus stays on the head"
    page.keyboard.press("Enter")
    assert page.locator("#rows th[aria-sort=descending]").inner_text().startswith("Cost")


def _tab_to(page, name):
    for _ in range(80):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.id") == name:
            return
    pytest.fail(f"{name} is not reached by the Tab key")


def test_the_address_holds_what_was_asked(site, visit):
    """Sent to someone else, it gives the same joints, words and numbers."""
    page = visit(site / "find.html")
    page.locator("#need-load").fill("2 lb")
    page.locator("#need-wobble").fill("1/16 in")
    page.locator("#need-by").select_option("wobble")
    said = page.locator("#found").inner_text()
    other = visit(site / "find.html")
    other.goto(page.url)
    assert other.locator("#found").inner_text() == said
    assert other.locator("#need-wobble").input_value() == "1/16 in"
    compare = other.locator("#compare-first").get_attribute("href")
    other.locator("#compare-first").click()
    other.wait_for_url("**/finder.html*")
    assert other.locator("#compared thead th").count() == compare.count(",") + 1
    assert other.locator("#in-words li").first.inner_text().startswith("B beside A: ")


@pytest.mark.parametrize("name, hash, told", [
    ("find", "load=500+g&colour=blue", "colour=blue"), ("find", "by=luck", "by=luck"), ("find", "load=%E0%A4%A", "load=%E0%A4%A"),
    ("finder", "kit=none-such&least.load=20+N", "kit=none-such"), ("finder", "compare=no-such-joint", "no-such-joint"),
    ("finder", "sort=luck", "sort=luck"), ("find", "tools=wand,laser", "tools=wand")])
def test_an_address_that_asks_for_nonsense_is_told_and_the_rest_used(site, visit, name, hash, told):
    page = visit(site / f"{name}.html", at="#" + hash)
    assert told in page.locator("#address-says").inner_text()
    assert page.locator("#found").inner_text() != ""


@pytest.mark.parametrize("width", [PHONE, DESK])
@pytest.mark.parametrize("scheme", SCHEMES)
@pytest.mark.parametrize("name, hash", [
    ("find", ""), ("find", "load=500+g&place=beyond&wobble=1+mm&tools=laser,drill"), ("find", "load=9+kN&wobble=x"),
    ("finder", ""), ("finder", "near.load=20+N&least.arm=x&sort=near&compare=")])
def test_everybody_can_use_it(site, visit, joints, name, hash, scheme, width):
    """No finding of the accessibility check at all, found, not found, wrong entries, compared; nothing is cut off."""
    hash += ",".join(joints["ids"][::400]) if hash.endswith("=") else ""
    page = visit(site / f"{name}.html", scheme, width, "#" + hash)
    found = Axe().run(page, options=ASK).response["violations"]
    assert [(rule["id"], [node["target"] for node in rule["nodes"]]) for rule in found] == []
    assert wider_than_the_window(page) <= 0


@pytest.mark.parametrize("name", ["find", "finder"])
def test_without_scripts_the_way_to_the_plain_tables_is_told(site, browser, name):
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto((site / f"{name}.html").as_uri())
    assert not page.locator("form.asking").is_visible()
    assert page.locator("article .note a[href='joints.html']").is_visible()
    context.close()


def test_units_are_chosen_once_and_remembered(site, browser):
    """Inches first on one page, then on every page; both stay, on paper too; millimetres come back."""
    context = browser.new_context()
    page = context.new_page()
    joint = sorted((site / "joints").glob("mm8-*.html"))[0]
    page.goto(joint.as_uri())
    before = page.locator("article").inner_text()
    page.get_by_role("button", name="Show inches first").click()
    after = page.locator("article").inner_text()
    assert before != after
    for other in (joint, site / "find.html", sorted((site / "parts").glob("*.html"))[0]):
        page.goto(other.as_uri())
        assert page.get_by_role("button", name="Show millimetres first").is_visible(), other.name
    page.goto(joint.as_uri())
    assert page.locator("article").inner_text() == after
    page.emulate_media(media="print")
    assert " mm" in page.locator("article").inner_text() and " in" in page.locator("article").inner_text()
    page.emulate_media(media="screen")
    page.get_by_role("button", name="Show millimetres first").click()
    assert page.locator("article").inner_text() == before
    context.close()


def test_a_joint_page_gives_its_link(site, browser):
    """A button copies the address, or shows it marked where the browser refuses."""
    context = browser.new_context()
    page = context.new_page()
    page.goto(sorted((site / "joints").glob("*.html"))[5].as_uri())
    page.get_by_role("button", name="Copy link").click()
    page.locator(".reading-tools input, .reading-tools [role=status]:has-text('Link copied')").first.wait_for()
    field = page.locator(".reading-tools input")
    if field.count():
        assert field.input_value().endswith(page.url.rsplit("/", 1)[1])
        assert page.evaluate("document.activeElement.value.length > 0")
    context.close()
