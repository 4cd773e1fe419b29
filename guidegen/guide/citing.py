"""Where a number comes from: links into the page of sources."""

from dataclasses import dataclass
from typing import Mapping

from markupsafe import Markup

from guidegen.kit.records import Source

KIND_SAYS_IT = ("derived", "common practice", "invented")


@dataclass(frozen=True)
class Citing:
    """Links sources for one page; `root` leads from the page to the top of the site."""

    sources: Mapping[str, Source]
    root: str

    def __call__(self, key: str) -> Markup:
        """A short link to a source, by its key."""
        return Markup('<a href="{}sources.html#{}">{}</a>').format(
            self.root, key, short_title(self.sources[key])
        )

    def plain(self, key: str) -> str:
        """The same without the link, where it stands near by."""
        return short_title(self.sources[key])


def short_title(source: Source) -> str:
    """Enough to tell sources apart: a title up to its first comma, or what kind of word it is."""
    return source.kind if source.kind in KIND_SAYS_IT else source.title.partition(", ")[0]
