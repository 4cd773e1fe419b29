// Sorts tables by a click on a column's head, and opens folded parts for printing. Pages read well without it.
(function () {
  "use strict";

  function valueOf(row, column) {
    var cell = row.cells[column];
    var given = cell.getAttribute("data-v");
    var text = given === null ? cell.textContent.trim() : given;
    var number = parseFloat(text.replace(/[\s\u2009]/g, "").replace("\u2212", "-").replace(/^\u2300/, ""));
    return { text: text, number: number };
  }

  function compare(one, other) {
    if (!isNaN(one.number) && !isNaN(other.number)) { return one.number - other.number; }
    return one.text.localeCompare(other.text, "en", { numeric: true });
  }

  function sortBy(table, heads, column) {
    var head = heads[column];
    var sense = head.getAttribute("aria-sort") === "ascending" ? -1 : 1;
    heads.forEach(function (other) { other.removeAttribute("aria-sort"); });
    head.setAttribute("aria-sort", sense === 1 ? "ascending" : "descending");
    var body = table.tBodies[0];
    Array.from(body.rows)
      .map(function (row, place) { return { row: row, place: place, value: valueOf(row, column) }; })
      .sort((a, b) => sense * compare(a.value, b.value) || a.place - b.place)
      .forEach(function (entry) { body.appendChild(entry.row); });
  }

  function start() {
    document.querySelectorAll("table.sortable").forEach(function (table) {
      if (table.dataset.ready) { return; }
      table.dataset.ready = "yes";
      var heads = Array.from(table.tHead.rows[0].cells);
      heads.forEach(function (head, column) {
        var button = document.createElement("button");
        button.type = "button";
        while (head.firstChild) { button.appendChild(head.firstChild); }
        head.appendChild(button);
        button.addEventListener("click", function () { sortBy(table, heads, column); });
      });
    });
  }

  window.addEventListener("beforeprint", function () {
    document.querySelectorAll("details:not([open])").forEach(function (folded) {
      folded.open = true;
      folded.dataset.printed = "yes";
    });
  });
  window.addEventListener("afterprint", function () {
    document.querySelectorAll("details[data-printed]").forEach(function (folded) {
      folded.open = false;
      delete folded.dataset.printed;
    });
  });

  if (typeof document$ !== "undefined") { document$.subscribe(start); } else { start(); }
})();
