// Draws the charts of a page from the JSON beside them. Each drawing gets a viewBox, so that paper of any width scales
// it; it is drawn anew only when the page itself becomes wider or narrower. What is folded away is opened for printing.
"use strict";
(function () {
  var charts = [];

  function scale(box) {
    var svg = box.querySelector("svg");
    svg.setAttribute("viewBox", "0 0 " + svg.getAttribute("width") + " " + svg.getAttribute("height"));
  }

  document.querySelectorAll("script[data-chart]").forEach(function (source) {
    var box = document.getElementById(source.dataset.chart);
    var chart = echarts.init(box, null, { renderer: "svg" });
    chart.setOption(JSON.parse(source.textContent));
    scale(box);
    charts.push({ chart: chart, box: box, width: box.clientWidth });
  });

  window.addEventListener("beforeprint", function () {
    document.querySelectorAll("section details:not(.small)").forEach(function (folded) { folded.open = true; });
  });

  window.addEventListener("resize", function () {
    charts.forEach(function (drawn) {
      if (drawn.box.clientWidth !== drawn.width) {
        drawn.width = drawn.box.clientWidth;
        drawn.chart.resize();
        scale(drawn.box);
      }
    });
  });
})();
