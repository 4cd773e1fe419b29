"""Sections, outlines and views of parts and joints, in millimetres, as SVG."""

from importlib.resources import files

from guidegen.drawing.life_size import life_size, small_outline
from guidegen.drawing.parts import kit_strip, part_drawing
from guidegen.drawing.section import section

DRAWING_CSS = files("guidegen").joinpath("drawing", "style.css").read_text(encoding="utf-8")

__all__ = ["DRAWING_CSS", "kit_strip", "life_size", "part_drawing", "section", "small_outline"]
