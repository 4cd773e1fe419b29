"""Joint files drawn at random: every layout and pair, both unit systems, the odd and the extreme among them."""

import random
from functools import cache

from joint_reference import course

from guidegen.errors import BadInput
from guidegen.joint import evaluate, make_joint
from guidegen.kit.records import RawFile

SEATS = {"mm": ("sb-8x12x8", "sb-8x12x12", "bb-608", "bb-688", "ny-8x12x8", "ny-8x12x12")}
SEATS["in"] = ("sb-38x50x38", "sb-38x50x50", "bb-r6", "ny-38x50x38", "ny-38x50x50")
SCREWS = {"mm": "ss-8", "in": "ss-38"}
LOADS = {"radial": ("0 N", "20 N", "5 lbf", "1e5 N"), "axial": ("0 N", "4 N", "0.5 lbf", "1e4 N")}


def length(rng, least, most):
    """A length as a person would write it, now and then in inches."""
    mm = rng.uniform(least, most)
    return f"{mm / 25.4:.4f} in" if rng.random() < 0.25 else f"{mm:.3f} mm"


def hole(rng, stocks):
    """A stock with a process that works on it."""
    stock = course().stocks[rng.choice(stocks)]
    fitting = [p.id for p in course().processes.values() if stock.kind in p.stocks.split()]
    return {"stock": stock.id, "process": rng.choice(fitting)}


def housing(rng):
    """Where a bearing sits."""
    where = hole(rng, sorted(course().stocks))
    where |= {"fit": rng.choice(["press", "slip", "bonded"]), "edge": length(rng, 11.5, 40)}
    return where | ({"proud": rng.choice(["head", "thread"])} if rng.random() < 0.6 else {})


def drawn(seed) -> dict:
    """The mapping of a joint file; most can be built, some cannot, a few are wrong."""
    rng = random.Random(seed)
    units = rng.choice(["mm", "mm", "in"])
    pair = rng.choices(SEATS[units], k=2)
    pair = [pair[0]] * 2 if rng.random() < 0.6 else pair
    bearings = pair if rng.random() < 0.8 else pair[:1]
    screws = sorted(id for id in course().parts if id.startswith(SCREWS[units]))
    file = {
        "title": f"Drawn {seed}",
        "shaft": rng.choice(screws[len(screws) // 2 :] if len(bearings) == 2 else screws),
        "bearings": bearings,
        "arm": length(rng, 1, 400),
        "turns": rng.choice(["shaft", "housing"]),
        "housing_1": housing(rng),
        "load": {key: rng.choice(values) for key, values in LOADS.items() if rng.random() < 0.9},
    }
    file["load"]["shock"] = rng.choice([1, 1.5, 3])
    thin = [stock.id for stock in course().stocks.values() if stock.thickness.typical <= 5]
    apart = rng.choice([rng.uniform(12, 32), rng.uniform(12, 32), rng.uniform(0.2, 10)])
    if len(bearings) == 2:
        file["separation"] = f"{apart:.3f} mm"
        file["housing_2"] = rng.choice(["same", housing(rng)])
        file["body"] = rng.choice(["plates", "block", "block"])
        if rng.random() < 0.35:
            file["offset"] = length(rng, -0.3, 0.3)
    if all(id.startswith("bb") for id in bearings) and rng.random() < 0.5:
        file["rings"] = "clamped"
        file["separation"] = rng.choice(["17 mm", "22 mm", "27 mm"])
    if file["turns"] == "housing":
        file["held"] = rng.choice(["thread", "fork"])
        file["overhang"] = rng.choice(
            ["0 mm", length(rng, -apart - 30, 40), f"{-apart / 2:.2f} mm", f"{-apart - 15:.2f} mm"]
        )
    elif rng.random() < 0.4:
        file["overhang"] = rng.choice([length(rng, -apart, 0), f"{-apart / 2:.2f} mm", length(rng, 5, 25)])
        if file["overhang"].startswith("-") and rng.random() < 0.5:
            file["arm_plate"] = hole(rng, thin) | {"fit": rng.choice(["slip", "bonded"])}
    file["cheeks" if file.get("held") == "fork" else "on_thread"] = hole(rng, thin)
    if rng.random() < 0.3:
        file["measured"] = measured(rng, file)
    return file


def measured(rng, file):
    """A few sizes, measured near what they should be."""
    parts, sizes = course().parts, {"shaft": course().parts[file["shaft"]].shoulder_diameter.typical}
    for n, id in enumerate(file["bearings"], 1):
        sizes[f"bore_{n}"] = parts[id].nominal
        sizes[f"hole_{n}"] = sizes[f"outside_diameter_{n}"] = parts[id].outside_diameter.typical
    chosen = rng.sample(sorted(sizes), 2)
    return {name: f"{sizes[name] + rng.uniform(-0.1, 0.1):.3f} mm" for name in chosen} | {
        "with": rng.choice(["caliper", "micrometer", "plug gauge"])
    }


def evaluated(file):
    """The result of a joint file's mapping, or BadInput given back."""
    try:
        return evaluate(make_joint(course(), RawFile("drawn.yaml", file, {}), file["title"]), course())
    except BadInput as bad:
        return bad


@cache
def all_drawn(number) -> tuple:
    """(mapping, result or BadInput) of so many joint files, some with the stack that was found listed in them."""
    files = [drawn(seed) for seed in range(number)]
    found = [(file, evaluated(file)) for file in files]
    built = [(file, result) for file, result in found if getattr(result, "stack", None)]
    again = [file | {"stack": listed(result)} for file, result in built[::4]]
    short = [file | {"stack": leave_one_out(listed(result))} for file, result in built[1::4]]
    return tuple(found) + tuple((file, evaluated(file)) for file in again + short)


def listed(result):
    """The part ids of a stack from the head, as a joint file lists them."""
    return [row.part for row in result.stack.placed if row.kind != "body"]


def leave_one_out(ids):
    """The same without its first filler."""
    parts = course().parts
    at = next(n for n, id in enumerate(ids) if id in parts and getattr(parts[id], "bush", "") != "yes")
    return ids[:at] + ids[at + 1 :]
