"""Search and calculator in a real browser: how long an answer takes, compared with the plain way.

Joints are repeated until there are 2000 rows. The plain way to filter reads a table of those rows, hides and
shows its lines; to compute, it opens the worked page. Each time is the median of many, drawing left out of
our own answers and of the plain filter alike. Needs a built guide: `make guide` first.

Run:  .venv/bin/python benchmarks/searching.py
"""
import shutil
from pathlib import Path

from playwright.sync_api import sync_playwright

SITE = Path(__file__).parent.parent / "site"
RESULTS = Path(__file__).with_name("searching.md")
ROWS = 2000
REPEAT = """rows => {
    const data = window.guideJoints, times = Math.ceil(rows / data.ids.length);
    const grow = list => {
        const own = list.slice();
        for (let k = 1; k < times; k += 1) { list.push(...own); }
    };
    [data.ids, data.starts, data.stocks.of, data.tools.of, data.moves.of, data.trouble].forEach(grow);
    data.choices.concat(data.numbers).forEach(one => grow(one.of));
    return data.ids.length;
}"""
LOADED = "performance.getEntriesByType('navigation')[0].domContentLoadedEventEnd"
MEDIAN = """const median = (work, many) => {
    const spent = [];
    for (let k = 0; k < many; k += 1) {
        const t = performance.now();
        work(k);
        spent.push(performance.now() - t);
    }
    return spent.sort((a, b) => a - b)[many >> 1];
};"""
FILTER = """() => { %s
    const asked = k => ({choices: {kit: [k %% 2], state: [0, 1], bearings: [k %% 3]},
        least: {}, most: {"wobble-most": 1 + k %% 7}, near: {load: 20}, sort: "near", down: false});
    return median(k => window.guideFinder.answer(asked(k)), 41);
}""" % MEDIAN
NEED = """() => { %s
    const need = k => window.guideNeed.needOf(
        [["load", (1 + k) + " N"], ["wobble", "1 mm"], ["place", "beyond"], ["sure", "care"]]);
    return median(k => window.guideNeed.answer(need(k)), 41);
}""" % MEDIAN
PLAIN = """rows => { %s
    const table = document.createElement("table");
    for (let k = 0; k < rows; k += 1) {
        const line = table.insertRow();
        [k %% 3, k %% 2, k %% 3, k %% 100 / 10, k].forEach(x => { line.insertCell().textContent = x; });
    }
    document.body.append(table);
    return median(k => {
        Array.from(table.rows).forEach(line => {
            const cell = n => Number(line.cells[n].textContent);
            line.hidden = !(cell(0) < 2 && cell(1) === k %% 2 && cell(2) === k %% 3 && cell(3) <= 1 + k %% 7);
        });
        const far = line => Math.abs(line.cells[4].textContent - 20);
        Array.from(table.rows).sort((a, b) => far(a) - far(b)).forEach(line => table.append(line));
    }, 21);
}""" % MEDIAN
RECKON = """() => { %s
    const G = window.guideGrounds, able = G.joints.map((_, k) => k).filter(k => G.joints[k]);
    return median(k => window.guideReckon.reckon(G.joints[able[k * 37 %% able.length]], {radial: 5 + k}), 61);
}""" % MEDIAN
PROVE = "() => { %s return median(() => window.guideReckon.failures(), 11); }" % MEDIAN


def main():
    found = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=found, args=["--no-sandbox", "--disable-gpu"])
        page = browser.new_page()

        def at(name, script, *arguments):
            page.goto((SITE / name).as_uri())
            rows = page.evaluate(REPEAT, ROWS)
            return page.evaluate(script, *arguments), rows

        filtered, rows = at("finder.html", FILTER)
        needed, _ = at("find.html", NEED)
        plain, _ = at("finder.html", PLAIN, rows)
        page.goto((SITE / "calculator.html").as_uri())
        reckoned, proved = page.evaluate(RECKON), page.evaluate(PROVE)
        started = page.evaluate(LOADED)
        worked = sorted((SITE / "joints").glob("*.html"))[100]
        opened = []
        for _ in range(9):
            page.goto(worked.as_uri())
            opened.append(page.evaluate(LOADED))
        browser.close()
    page_ms = sorted(opened)[len(opened) // 2]
    report(rows, filtered, needed, plain, reckoned, proved, started, page_ms)


def report(rows, filtered, needed, plain, reckoned, proved, started, page_ms):
    rows_told = (
        (f"filters over {rows} rows, counts and order", filtered, plain),
        (f"need over {rows} rows, ranked, with what stands in the way", needed, plain),
        ("calculator, all numbers with bands", reckoned, page_ms),
        ("calculator, proof before the first number; the whole page", proved, started),
    )
    text = "\n".join([
        "# Search and calculator", "",
        "Made by `benchmarks/searching.py`, which says what is compared. Milliseconds, medians of one run.",
        "", "| answer | ms | plain way, ms | ours / plain |", "|---|---|---|---|",
        *(f"| {what} | {ours:.2f} | {plain:.2f} | {ours / plain:.2f} |"
          for what, ours, plain in rows_told), ""])
    RESULTS.write_text(text)
    print(text)


if __name__ == "__main__":
    main()
