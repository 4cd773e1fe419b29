"""The adapter and publishing: what a build writes, and what a build that goes wrong leaves alone."""
import shutil

import pytest
from conftest import SMALL_COURSE, build_demo

from guidegen.errors import BadInput
from guidegen.guide import publish as publishing
from guidegen.guide.page import Guide, Page
from guidegen.guide.publish import publish, replaced_whole
from guidegen.revision import CODE, Revision, revision

REVISION = Revision("abcd1234", 1_700_000_000)


def contents(folder):
    return {path.relative_to(folder).as_posix(): path.read_bytes()
            for path in sorted(folder.rglob("*")) if path.is_file()}


def test_made_pages_are_real_pages_of_the_site(small_site):
    """A made page carries its body unchanged, its title, its table of contents and the revision."""
    text = (small_site / "tilt.html").read_text()
    assert "<mfrac><mi>c</mi><mi>B</mi></mfrac>" in text
    assert "<title>Tilt &amp; lean - Small test course</title>" in text
    assert 'content="&quot;Tilt&quot; &amp; lean"' in text
    assert text.index('href="#table"') < text.index('href="#formula"') < text.index('href="#drawing"')
    for page in small_site.rglob("*.html"):
        assert "Revision abcd1234, 2023-11-14" in page.read_text(), page.name


def test_the_theme_is_mended_for_keys_and_screen_readers(small_site):
    """The search dialog has a name; a hand-written table scrolls by itself and is reached by keys."""
    text = (small_site / "index.html").read_text()
    assert 'role="dialog" aria-label="Search"' in text
    assert '<div class="scroll" role="region" aria-label="Table" tabindex="0"><table class="written">' in text


def test_extra_files_reach_the_site_as_they_are(small_site):
    """Bytes given with the guide stand in the site."""
    assert (small_site / "assets" / "ids.json").read_bytes() == b'["one"]'


def test_only_pages_for_search_are_indexed(small_site):
    """Number pages stay out of the search index, which they break."""
    index = (small_site / "search" / "search_index.json").read_text()
    assert "hexkeyword" in index and "tiltkeyword" in index and "hiddenkeyword" not in index


def test_two_builds_give_the_same_bytes(small_guide, small_site, tmp_path):
    """Nothing of the clock or the place gets into a site."""
    again = publish(SMALL_COURSE, small_guide, REVISION, tmp_path / "elsewhere" / "site")
    assert contents(again) == contents(small_site)


def test_two_builds_of_the_demo_give_the_same_bytes(demo, site, tmp_path):
    """Not even with another order of sets and another clock."""
    course = tmp_path / "again"
    shutil.copytree(demo, course, ignore=shutil.ignore_patterns("site"))
    build_demo(course, PYTHONHASHSEED="7", TZ="Pacific/Auckland")
    first, second = contents(site), contents(course / "site")
    assert first.keys() == second.keys()
    assert [name for name in first if first[name] != second[name]] == []


@pytest.fixture
def small_course(tmp_path):
    course = tmp_path / "course"
    shutil.copytree(SMALL_COURSE, course)
    settings = course / "mkdocs.yml"
    settings.write_text(settings.read_text().replace("../../mkdocs.yml", str(CODE.parent / "mkdocs.yml")))
    return course


def test_a_refused_build_names_every_fault_and_leaves_the_former_site(small_course, small_guide):
    """Links into nowhere stop the build; what was published stays, byte for byte; no rest is left."""
    site = publish(small_course, small_guide, REVISION)
    before = contents(site)
    (small_course / "docs" / "bench.md").write_text("# Bench\n\n[away](nowhere.md) [off](tilt.md#gone)\n")
    with pytest.raises(BadInput) as refused:
        publish(small_course, small_guide, REVISION)
    said = sorted(map(str, refused.value.mistakes))
    assert len(said) == 2 and all(line.startswith("docs/bench.md") for line in said)
    assert "nowhere.md" in str(said) and "#gone" in str(said)
    assert contents(site) == before
    assert sorted(path.name for path in small_course.iterdir()) == ["docs", "mkdocs.yml", "site"]


def test_bad_settings_are_told_in_the_one_form(small_course, small_guide):
    """A slip in mkdocs.yml, or none at all, is a mistake with a place, not a traceback."""
    settings = small_course / "mkdocs.yml"
    settings.write_text(settings.read_text() + "no_such_key: 1\n  indented: wrong\n")
    with pytest.raises(BadInput, match="mkdocs.yml"):
        publish(small_course, small_guide, REVISION)
    settings.unlink()
    with pytest.raises(BadInput, match="mkdocs.yml"):
        publish(small_course, small_guide, REVISION)
    assert not (small_course / "site").exists()


def test_a_page_in_a_wrong_encoding_is_told_with_its_name(small_course, small_guide):
    """A Latin-1 page is refused by name."""
    (small_course / "docs" / "bench.md").write_bytes("# Bänk".encode("latin-1"))
    with pytest.raises(BadInput, match="docs/bench.md"):
        publish(small_course, small_guide, REVISION)


def test_a_hand_written_page_does_not_hide_a_made_one(small_course, small_guide):
    """Two pages under one name are refused."""
    (small_course / "docs" / "tilt.md").write_text("# Mine\n\n## Table {#table}\n")
    with pytest.raises(BadInput, match="tilt.md"):
        publish(small_course, small_guide, REVISION)


@pytest.mark.parametrize("stop", [KeyboardInterrupt, RuntimeError])
@pytest.mark.parametrize("at_once", [True, False])
def test_an_interrupted_build_leaves_the_former_site(tmp_path, monkeypatch, stop, at_once):
    """Whatever ends the build, wherever it was, the former site stands whole and alone."""
    if not at_once:
        monkeypatch.setattr(publishing, "_exchanged_at_once", lambda one, other: False)
    folder = tmp_path / "site"
    with replaced_whole(folder) as fresh:
        (fresh / "index.html").write_text("former")
    with pytest.raises(stop), replaced_whole(folder) as fresh:
        (fresh / "index.html").write_text("half")
        raise stop
    assert contents(tmp_path) == {"site/index.html": b"former"}
    with replaced_whole(folder) as fresh:
        (fresh / "index.html").write_text("new")
    assert contents(tmp_path) == {"site/index.html": b"new"}


def test_a_stop_between_the_two_renames_is_repaired(tmp_path, monkeypatch):
    """Without an exchange in one step there is a moment with no site: the next build, at least, mends it."""
    (tmp_path / ".site-former").mkdir()
    (tmp_path / ".site-former" / "index.html").write_text("former")
    (tmp_path / ".site-building").mkdir()
    with pytest.raises(KeyboardInterrupt), replaced_whole(tmp_path / "site"):
        raise KeyboardInterrupt
    assert contents(tmp_path) == {"site/index.html": b"former"}


def test_no_second_build_in_the_same_place(tmp_path):
    """Two builds at once would tread on each other: the second is refused."""
    with replaced_whole(tmp_path / "site"):
        with pytest.raises(BadInput, match="another build"), replaced_whole(tmp_path / "site"):
            pass


def test_a_file_in_place_of_the_site_is_refused(tmp_path):
    """A file called site is not ours to remove."""
    (tmp_path / "site").write_text("mine")
    with pytest.raises(BadInput, match="a file stands"), replaced_whole(tmp_path / "site"):
        pass
    assert (tmp_path / "site").read_text() == "mine"


def test_revision_follows_data_and_its_date_needs_no_clock(tmp_path, monkeypatch):
    """The mark changes with any source; the date is the given one, else that of the newest file."""
    monkeypatch.delenv("SOURCE_DATE_EPOCH", raising=False)
    monkeypatch.setenv("GIT_CEILING_DIRECTORIES", str(tmp_path.parent))
    (tmp_path / "data").mkdir()
    (tmp_path / "data" / "course.yaml").write_text("title: One\n")
    first = revision(tmp_path)
    assert revision(tmp_path) == first and len(first.mark) == 8
    (tmp_path / "site").mkdir()
    (tmp_path / "site" / "index.html").write_text("made, not a source")
    assert revision(tmp_path) == first
    (tmp_path / "data" / "course.yaml").write_text("title: Two\n")
    assert revision(tmp_path).mark != first.mark
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "86400")
    assert revision(tmp_path).date == "1970-01-02"


def test_page_titles_are_text(tmp_path, small_guide):
    """A sign that means something in HTML is printed as itself."""
    page = Page("joints/two.html", "a < b & c", "<h1>Two</h1>")
    guide = Guide((*small_guide.pages, page), small_guide.files)
    site = publish(SMALL_COURSE, guide, REVISION, tmp_path / "site")
    assert "<title>a &lt; b &amp; c - Small test course</title>" in (site / "joints" / "two.html").read_text()
