// On a joint's page: a button that copies its address, one that prints it, the way to the calculator. The page itself
// carries none of them.
(function () {
  "use strict";

  const OF_JOINTS = /\/(joints|working|making|fits)\/[^/]+\.html$/;

  // The published address where the course has one, else the one that the reader sees; without a place on the page.
  function address() {
    const published = document.querySelector("link[rel=canonical]");
    return (published ? published.href : window.location.href).split("#")[0];
  }

  function copied(text) {
    if (navigator.clipboard && window.isSecureContext) { return navigator.clipboard.writeText(text); }
    return Promise.reject(new Error("no clipboard here"));
  }

  function button(words, act) {
    const made = document.createElement("button");
    made.type = "button";
    made.textContent = words;
    made.addEventListener("click", act);
    return made;
  }

  // Copies `text`; where the browser refuses, shows it in a field, marked, to be copied by hand.
  function copy(text, row, told) {
    const done = function () { told.textContent = "Link copied."; };
    copied(text).then(done).catch(function () {
      let field = row.querySelector("input");
      if (!field) {
        field = document.createElement("input");
        field.type = "text";
        field.readOnly = true;
        field.setAttribute("aria-label", "Link to this page");
        row.appendChild(field);
      }
      field.value = text;
      field.focus();
      field.select();
      told.textContent = "This browser does not copy by itself: copy the marked link.";
    });
  }

  window.guideCopyButton = function (row, textOf) {
    const told = document.createElement("span");
    told.setAttribute("role", "status");
    row.appendChild(button("Copy link", function () { copy(textOf(), row, told); }));
    row.appendChild(told);
  };

  function start() {
    const article = document.querySelector("article");
    if (!article || article.querySelector(".reader-print") || !OF_JOINTS.test(window.location.pathname)) { return; }
    const row = window.guideReading(article);
    const print = button("Print", function () { window.print(); });
    print.className = "reader-print";
    row.appendChild(print);
    window.guideCopyButton(row, address);
    const own = document.createElement("a");
    own.href = "../calculator.html#from=" + window.location.pathname.split("/").pop().replace(".html", "");
    own.textContent = "Change its numbers";
    row.appendChild(own);
  }

  if (typeof document$ !== "undefined") { document$.subscribe(start); } else { start(); }
})();
