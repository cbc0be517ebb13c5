// Draws the charts of a page from the JSON beside them, in the colors of a light or a dark screen. Each drawing gets a
// viewBox, so that paper of any width scales it; it is drawn anew when the page becomes wider or narrower or its colors
// change, and always in the colors of paper for printing. What is folded away is opened for printing.
"use strict";
(function () {
  var dark = window.matchMedia("(prefers-color-scheme: dark)");
  var darkColors = { "#1f2a30": "#e8e6e0", "#1d5b87": "#7fb8e0", "#a8400f": "#f09a76", "#5d6870": "#b3bcc2", "#d9dcd8": "#3b454b", "#6a3d80": "#c9a3de",
    "#2f6b45": "#8fcba4", "#fff": "#1a2024" };
  var charts = [];

  function optionOf(text, asDark) {
    if (asDark) {
      text = text.replace(/"(#[0-9a-f]{3,6})"/g, function (whole, color) { return darkColors[color] ? '"' + darkColors[color] + '"' : whole; });
    }
    return JSON.parse(text);
  }

  function scale(box) {
    var svg = box.querySelector("svg");
    svg.setAttribute("viewBox", "0 0 " + svg.getAttribute("width") + " " + svg.getAttribute("height"));
  }

  function draw(drawn, asDark) {
    drawn.chart.setOption(optionOf(drawn.text, asDark), true);
    drawn.chart.getZr().flush();
    scale(drawn.box);
  }

  function drawAll(asDark) { charts.forEach(function (drawn) { draw(drawn, asDark); }); }

  document.querySelectorAll("script[data-chart]").forEach(function (source) {
    var box = document.getElementById(source.dataset.chart);
    var drawn = { chart: echarts.init(box, null, { renderer: "svg" }), box: box, text: source.textContent, width: box.clientWidth };
    charts.push(drawn);
    draw(drawn, dark.matches);
  });

  dark.addEventListener("change", function () { drawAll(dark.matches); });

  window.addEventListener("beforeprint", function () {
    document.querySelectorAll("section details:not(.small)").forEach(function (folded) { folded.open = true; });
    if (dark.matches) { drawAll(false); }
  });

  window.addEventListener("afterprint", function () { if (dark.matches) { drawAll(true); } });

  window.addEventListener("resize", function () {
    charts.forEach(function (drawn) {
      if (drawn.box.clientWidth !== drawn.width && drawn.box.clientWidth > 0) {
        drawn.width = drawn.box.clientWidth;
        drawn.chart.resize();
        scale(drawn.box);
      }
    });
  });

  // What is drawn while it is folded away has no width: it is drawn when it is opened.
  document.querySelectorAll("details").forEach(function (folded) {
    folded.addEventListener("toggle", function () { window.dispatchEvent(new Event("resize")); });
  });
})();
