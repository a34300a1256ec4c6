// What is ticked and written stays in the page's own memory, under the design's mark. Nothing is sent.
(function () {
  var place = "quillet " + document.body.dataset.memory, kept = {};
  try { kept = JSON.parse(localStorage.getItem(place)) || {}; } catch (e) { kept = {}; }
  var fields = document.querySelectorAll("input:enabled");
  // On paper a field is called by its key. What is ticked already cannot be changed.
  function keyOf(field) { return field.dataset.key || field.getAttribute("aria-label"); }
  function show(field) {
    var value = kept[keyOf(field)];
    if (field.type === "checkbox") field.checked = value === true;
    else field.value = typeof value === "string" ? value : "";
  }
  function changed(event) {
    var field = event.target, key = keyOf(field);
    if (!key) return;
    kept[key] = field.type === "checkbox" ? field.checked : field.value;
    fields.forEach(function (other) { if (other !== field && keyOf(other) === key) show(other); });
    try { localStorage.setItem(place, JSON.stringify(kept)); } catch (e) { /* no memory here */ }
  }
  fields.forEach(show);
  document.addEventListener("input", changed);
})();
