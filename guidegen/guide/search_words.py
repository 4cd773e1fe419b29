"""What people type who do not know the trade's words, and the pages that answer it."""

WORDS = {
    "charts/wobble.html": (
        "play",
        "free play",
        "slop",
        "sloppy",
        "slack",
        "wiggle",
        "wobble",
        "wobbly",
        "loose",
        "shaky",
        "rattle",
    ),
    "charts/starting.html": ("tight", "stiff", "stuck", "hard to turn", "friction", "drag", "grease"),
    "charts/lasting.html": ("worn out", "wear", "lifetime", "squeak", "noise"),
    "charts/loads.html": ("bend", "bent", "break", "strength"),
    "trouble.html": ("squeak", "squeal", "noise", "stuck", "tight", "loose", "wobbly", "jammed", "grinding"),
    "surroundings.html": ("rust", "rusty", "corrosion", "water", "wet", "rain", "outdoors"),
    "find.html": ("which joint", "my job", "need", "requirement", "select", "pick"),
    "finder.html": ("filter", "compare", "sort", "nearest", "side by side"),
    "calculator.html": ("calculate", "calculator", "compute", "own numbers", "formula"),
    "choose.html": ("bushing", "bearing", "nylon", "plastic"),
    "weights.html": ("heavy", "weight", "kilogram", "grams", "pounds", "ounces"),
    "holes.html": ("laser", "kerf", "drill", "ream", "hole size"),
    "press-fits.html": ("press fit", "interference", "crack", "hammer"),
    "near-sizes.html": ("inch", "metric", "imperial", "convert"),
    "measured.html": ("caliper", "identify", "measure"),
    "kits.html": ("kit", "contents"),
    "costs.html": ("price", "cost", "cheap"),
    "shopping.html": ("buy", "order"),
    "rules.html": ("rule of thumb", "myth", "rule"),
    "safety.html": ("danger", "hazard", "warning", "pinch"),
}


def search_words(path: str) -> list[str]:
    """The words under which the page at a path is found first: of a part its id; none for most pages."""
    folder, _, name = path.removesuffix(".html").rpartition("/")
    return [name] if folder == "parts" else list(WORDS.get(path, ()))
