"""What matplotlib writes, made fit to stand in a page: no style inside, classes for colours, ids of its own.

Only presentation attributes and classes are left, so that a page whose policy forbids inline styles shows it.
"""

import re
import xml.etree.ElementTree as ET
from typing import Mapping

SVG = "{http://www.w3.org/2000/svg}"
HREF = "{http://www.w3.org/1999/xlink}href"
DROPPED = {"metadata", "style", "title"}
KEPT = {
    "font-size",
    "text-anchor",
    "stroke-width",
    "stroke-dasharray",
    "stroke-dashoffset",
    "stroke-opacity",
    "fill-opacity",
}
DEFAULTS = {("font-size", "11"), ("text-anchor", "start"), ("stroke-width", "1"), ("stroke-dashoffset", "0")}
INDEX_SIZE, INDEX_DROP = "8", 2.5  # of an index below the line
_NUMBER = re.compile(r"-?\d*\.\d+(?:e-?\d+)?")
_SYMBOL = re.compile(r"_(\w)(?:_(\w+))?_")  # "_R_1_": a letter to be set slanting, with its index
_REFERENCE = re.compile(r"url\(#([^)]+)\)")
_MEASURES = ("d", "x", "y", "width", "height", "transform", "points")


def cleaned(svg: str, id: str, title: str, text: str, roles: Mapping[str, object]) -> str:
    """The drawing as one inline element, with its text alternative; `roles` names colours."""
    root = ET.fromstring(svg)
    for element in root.iter():
        element.tag = element.tag.removeprefix(SVG)
        if HREF in element.attrib:
            element.set("href", element.attrib.pop(HREF))
    _tidy(root, roles)
    _rename(root, id)
    box = root.get("viewBox")
    root.attrib.clear()
    root.attrib |= {
        "class": "chart",
        "id": id,
        "viewBox": _rounded(box),
        "role": "img",
        "aria-labelledby": f"{id}-title {id}-desc",
        "fill": "currentColor",
        "font-size": "11",
    }
    for place, (tag, words) in enumerate((("title", title), ("desc", text))):
        child = ET.Element(tag, {"id": f"{id}-{tag}"})
        child.text = words
        root.insert(place, child)
    return ET.tostring(root, encoding="unicode")


def _tidy(parent, roles):
    """Clean what is inside an element: no style, no empty groups, rounded places."""
    children = []
    for element in parent:
        if element.tag in DROPPED:
            continue
        _present(element, roles)
        if element.tag == "text":
            _set_symbols(element)
        else:
            element.text = None
            _tidy(element, roles)
        element.tail = None
        if element.tag == "path" and element.get("fill") == "none" and not _stroked(element):
            continue  # the ground that figure and axes stand on
        if element.tag == "defs" and not len(element) or element.tag == "g" and not len(element):
            continue
        if element.tag == "g" and "clip-path" not in element.attrib:
            children += list(element)
        else:
            children.append(element)
    parent[:] = children


def _stroked(element):
    return "stroke" in element.attrib or "class" in element.attrib or "id" in element.attrib


def _present(element, roles):
    """Presentation attributes and classes in place of a style; numbers to a hundredth of a unit."""
    style = dict(
        (key.strip(), value.strip())
        for key, _, value in (item.partition(":") for item in element.attrib.pop("style", "").split(";"))
        if value
    )
    if size := re.search(r"([\d.]+)px", style.pop("font", "") + style.pop("font-size", "")):
        style["font-size"] = size[1]
    for name in ("fill", "stroke"):
        colour = style.pop(name, element.attrib.pop(name, ""))
        if colour in roles:
            _colour(element, name, roles[colour])
        elif colour.startswith("url(") or colour == "none" and name == "fill":
            element.set(name, colour)
    if "opacity" in style:
        style.setdefault("fill-opacity", style.pop("opacity"))
    for name, value in style.items():
        if name in KEPT and (name, value) not in DEFAULTS:
            element.set(name, _rounded(value))
    for name in _MEASURES:
        if name in element.attrib:
            element.set(name, " ".join(_rounded(element.get(name)).split()))
    if re.match(r"rotate\(-?0 ", element.get("transform", "")):
        del element.attrib["transform"]


def _colour(element, name, role):
    """Ink is the colour of the page's own words; every other role is a class."""
    if role == "ink":
        if name == "stroke":
            element.set("stroke", "currentColor")
        return
    kind = {"fill": "fill", "stroke": "line"}[name]
    names = element.get("class", "").split() + [f"chart-{kind}-{role}"]
    element.set("class", " ".join(names))


def _rounded(text):
    return _NUMBER.sub(lambda found: f"{round(float(found[0]), 2) + 0.0:g}", text)


def _set_symbols(element):
    """Letters that stand for quantities slant, with their index below the line."""
    words, element.text = element.text, None
    end, drop = 0, 0.0
    for found in _SYMBOL.finditer(words):
        drop = _span(element, words[end : found.start()], drop)
        drop = _span(element, found[1], drop, {"font-style": "italic"})
        if found[2]:
            _span(element, found[2], INDEX_DROP, {"font-size": INDEX_SIZE})
            drop = -INDEX_DROP
        end = found.end()
    _span(element, words[end:], drop)


def _span(element, words, drop, style=None):
    """Add words to a text, `drop` units lower than those before; returns how far the next are to go."""
    if not words:
        return drop
    if not drop and not style and not len(element):
        element.text = words
    else:
        ET.SubElement(element, "tspan", (style or {}) | ({"dy": f"{drop:g}"} if drop else {})).text = words
    return 0.0


def _rename(root, id):
    """Only ids that something refers to, each beginning with the chart's own."""
    used = {}
    for element in root.iter():
        for value in element.attrib.values():
            for name in _REFERENCE.findall(value) + re.findall(r"^#(.+)", value):
                used.setdefault(name, f"{id}-{len(used) + 1}")
    for element in root.iter():
        name = element.attrib.pop("id", None)
        if name in used:
            element.set("id", used[name])
        for key, value in element.attrib.items():
            value = _REFERENCE.sub(lambda found: f"url(#{used[found[1]]})", value)
            element.set(key, re.sub(r"^#(.+)", lambda found: f"#{used[found[1]]}", value))
