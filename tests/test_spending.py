"""Cost and weight of joints, orders of a class: against sums from the files themselves, and printed masses."""

import csv
from collections import Counter
from decimal import Decimal
from math import ceil, pi

import pytest
import yaml
from joint_reference import course, some
from scipy.stats import binom
from test_data import ROOT

from guidegen.guide.edition import Edition
from guidegen.guide.money_pages import choices, cost_of, money_pages
from guidegen.guide.pairs import groups
from guidegen.guide.tools_page import tools_page
from guidegen.joint.ordering import orders
from guidegen.joint.spending import GRAM, kit_cost, mass_of
from guidegen.joint.tightening import tightened
from guidegen.kit.cells import Field, Unreadable
from guidegen.kit.reader import read_words
from guidegen.kit.records import Nut, Part
from guidegen.theory.cost import loss_rate


def rows_of_files():
    """Every row of the part files as text, by id."""
    found = {}
    for path in sorted((ROOT / "data" / "parts").glob("*.csv")):
        with open(path, newline="", encoding="utf-8") as file:
            found |= {row["id"]: row for row in csv.DictReader(file) if row["id"] != "-"}
    return found


def prices():
    return {id: Decimal(row["price"]) for id, row in rows_of_files().items()}


def test_a_joint_costs_what_its_pieces_cost_on_the_list():
    """Screw and every piece of its stack, priced one by one from the files, in whole cents."""
    till = prices()
    for result in some(80):
        pieces = [result.joint.shaft.id] + [row.part for row in result.stack.placed if row.part in till]
        found = result.quantities["cost"]
        assert found.unit == course().currency
        assert round(Decimal(found.value), 2) == sum(till[piece] for piece in pieces), result.id


def test_kits_and_classes_cost_what_the_files_say():
    """Counts from kits.yaml, prices and packs from the part files, teams and shares from course.yaml."""
    till, files = prices(), rows_of_files()
    kits = yaml.safe_load((ROOT / "data" / "kits.yaml").read_text(encoding="utf-8"))
    says = yaml.safe_load((ROOT / "data" / "course.yaml").read_text(encoding="utf-8"))
    share, loss = Decimal(str(says["spares"])), says["loss"]
    packed = 0
    for id, kit in kits.items():
        counts = kit["parts"]
        whole = sum(till[part] * count for part, count in counts.items())
        assert round(Decimal(kit_cost(course().kits[id].parts, course())), 2) == whole
        for line in orders(course().kits[id].parts, course()):
            out = says["teams"] * counts[line.part.id]
            lost = next(k for k in range(out + 1) if binom.cdf(k, out, loss) >= 0.95)
            spares = max(ceil(share * out), lost)
            assert (line.spares, line.needed) == (spares, out + spares), line.part.id
            pack = int(files[line.part.id].get("pack") or 1)
            assert line.part.pack == pack and line.pieces % pack == 0
            assert line.needed <= line.pieces < line.needed + pack
            assert round(Decimal(line.price), 2) == till[line.part.id] * line.pieces
            packed += pack > 1
    assert packed > 20


def test_limits_of_a_rate_are_those_of_clopper_and_pearson():
    """At each limit what was counted has a chance of one in twenty, by the binomial of the statistics library."""
    for lost, out in ((0, 32), (1, 32), (3, 32), (8, 64)):
        found = loss_rate(lost, out)
        assert binom.cdf(lost, out, found.most) == pytest.approx(0.05)
        assert binom.sf(lost - 1, out, found.least) == pytest.approx(0.05) if lost else found.least == 0
        assert found.least <= found.typical == lost / out <= found.most


# Grams of one piece. 608: bearing catalogues print 12. Nut M6: DIN 934 tables print 2.5; washer 6.4 x 12 x 1.6:
# DIN 125 tables print 1.02 (both memory, high confidence).
PRINTED = {"bb-608": (12.0, 0.1), "nut-m6": (2.5, 0.06), "ws-6": (1.02, 0.1)}


def test_parts_weigh_what_tables_print():
    """Within what leaving out chamfers costs, and with the middle of the limits in place of nominal sizes."""
    for id, (grams, within) in PRINTED.items():
        assert mass_of(course().parts[id], course()) / GRAM == pytest.approx(grams, rel=within), id


def test_round_parts_weigh_their_volume():
    """Sizes and densities from the records: rings of bushes, spacers and washers by their own volume."""
    length = {"sb-8x12x8": "length", "ny-8x12x8": "length", "sp-8x10": "length", "wl-8": "thickness"}
    for id, column in length.items():
        part = course().parts[id]
        hole = part.free_bore if id.startswith("sb") else part.hole
        area = pi / 4 * (part.outside_diameter.typical**2 - hole.typical**2)
        volume = area * getattr(part, column).typical
        density = course().materials[part.material].density
        assert mass_of(part, course()) == pytest.approx(density * volume), id
    lock, plain = (mass_of(course().parts[id], course()) for id in ("nut-m6-lock", "nut-m6"))
    heights = [course().parts[id].height.typical for id in ("nut-m6-lock", "nut-m6")]
    assert lock / heights[0] == pytest.approx(0.8 * plain / heights[1])


def test_a_joint_weighs_what_its_pieces_weigh():
    """Piece by piece."""
    parts = course().parts
    for result in some(40):
        pieces = Counter(
            [result.joint.shaft.id, *(row.part for row in result.stack.placed if row.part in parts)]
        )
        grams = sum(n * mass_of(parts[id], course()) for id, n in pieces.items()) / GRAM
        assert result.quantities["mass"].unit == "g" and result.quantities["mass"].value == pytest.approx(
            grams
        )
        assert 5 < grams < 500


def test_the_torque_of_a_screw_is_that_of_its_joints():
    """The table of torques and each joint's own: the same least of neck, thread and plate."""
    found = 0
    for result in some(80):
        torque = result.quantities.get("set_torque")
        if torque and not result.joint.clamped:
            nut = [row.part for row in result.stack.placed if row.kind == "nut"][-1]
            tight = tightened(result.joint.shaft, course().parts[nut], course(), result.joint.on_thread.stock)
            assert tight.torque == pytest.approx(torque.value), result.id
            found += 1
    assert found > 20


def test_the_neck_sets_the_torque_of_a_metric_screw():
    """By hand: 75 % of 88 % of the yield stress in the neck; a nut that clamps a quarter harder; T = 0.2 d F."""
    screw = course().parts["ss-8x50"]
    stress = 0.75 * 0.88 * course().materials[screw.material].yield_stress
    force = 0.95 / 1.25 * stress * pi / 4 * screw.neck_diameter.least**2
    for nut in (part for part in course().parts.values() if isinstance(part, Nut) and part.thread == "M6"):
        tight = tightened(screw, nut, course())
        assert (tight.weakest, tight.force) == ("neck", pytest.approx(force))
        if nut.finish == "zinc":
            assert tight.torque == pytest.approx(0.20 * 6 * tight.force)
    steel, wood = (course().stocks[id] for id in ("steel-2", "birch-ply-6"))
    nut = course().parts["nut-m6"]
    harder, softer = (tightened(screw, nut, course(), plate) for plate in (steel, wood))
    assert harder.weakest == softer.weakest == "plate"
    assert harder.torque / softer.torque == pytest.approx(steel.seat_limit / wood.seat_limit)


@pytest.fixture(scope="module")
def edition():
    return Edition(course(), some(60), read_words(ROOT / "shared"))


def test_choices_run_from_cheap_to_dear(edition):
    """The cheapest and the dearest of each kind are among its joints, and none is cheaper or dearer."""
    made = groups(edition.results, (), edition.kits)
    found = choices(made)
    assert [cost_of(one.cheapest) for one in found] == sorted(cost_of(one.cheapest) for one in found)
    for one in found:
        costs = [cost_of(result) for result in one.group.results]
        assert (cost_of(one.cheapest), cost_of(one.dearest)) == (min(costs), max(costs))
        assert one.good is None or one.good.state != "does not hold"


def test_the_pages_show_the_sums(edition):
    """Price of each kit and of its class on both pages; every part of a kit on the list; keys of all kits."""
    pages = {page.path: page.body for page in money_pages(edition, groups(edition.results, (), edition.kits))}
    for kit in edition.kits:
        price, total = kit_cost(kit.parts, course()), sum(line.price for line in orders(kit.parts, course()))
        for path in ("costs.html", "shopping.html"):
            assert f"{price:.2f}" in pages[path] and f"{total:.2f}" in pages[path]
        for part in kit.parts:
            assert f'id="{kit.id}-{part}"' in pages["shopping.html"]
    tools = tools_page(edition).body
    for size in ("4 mm", "3/16 in", "2 × 10 mm", "2 × 1/2 in"):
        assert size in tools
    assert "0.015 to 0.17 mm" in tools  # M6 by its limits: (5.350 - 5.324)/√3 to (5.500 - 5.212)/√3


def test_a_pack_is_a_whole_number_of_pieces():
    """A pack of none or of half a piece is refused; a part that names no pack is sold one by one."""
    field = Field(Part.model_fields["pack"])
    assert field.read("25") == 25 and course().parts["bb-608"].pack == 1
    for wrong in ("0", "2.5", "-5", "many"):
        with pytest.raises(Unreadable):
            field.read(wrong)
