(function () {
  "use strict";
  var plan = document.body.dataset.plan;
  var boxes = document.querySelectorAll("input[type=checkbox]");
  boxes.forEach(function (box, i) {
    var key = "ticks " + plan + " " + i;
    try {
      box.checked = localStorage.getItem(key) === "1";
      box.addEventListener("change", function () {
        localStorage.setItem(key, box.checked ? "1" : "0");
      });
    } catch (e) {
      // A browser that keeps nothing still shows the page.
    }
  });
})();
