"""Prints a declared formula: as MathML, in words, with numbers put in."""
