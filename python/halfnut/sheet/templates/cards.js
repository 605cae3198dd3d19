// Readings and ticks stay in the browser, by the page and their place on it; a measured size fills in what is left.
const fields = [...document.querySelectorAll("input")];
const place = `halfnut ${location.pathname}`;
let kept = {};
try { kept = JSON.parse(localStorage.getItem(place) || "{}"); } catch (error) { kept = {}; }
const keep = () => {
  fields.forEach((field, at) => { kept[at] = field.type === "checkbox" ? field.checked : field.value; });
  try { localStorage.setItem(place, JSON.stringify(kept)); } catch (error) { /* a browser that keeps nothing */ }
};
fields.forEach((field, at) => {
  if (at in kept) field[field.type === "checkbox" ? "checked" : "value"] = kept[at];
  field.addEventListener("input", () => {
    const sum = field.closest("[data-less], [data-from]");
    const read = parseFloat(field.value.replace(",", "."));
    if (sum && field === sum.querySelector("input")) {
      const aim = parseFloat(sum.dataset.less ?? sum.dataset.from);
      const left = sum.dataset.less ? read - aim : aim - read;
      sum.querySelectorAll("input")[1].value = Number.isFinite(left) ? left.toFixed(4).replace(/0$/, "") : "";
    }
    keep();
  });
});
document.querySelector(".keep button").addEventListener("click", () => {
  const lines = [];
  document.querySelectorAll(".card").forEach((card) => {
    lines.push(card.querySelector("h1").textContent + ", " + card.querySelector("header p").textContent);
    card.querySelectorAll(".row, footer p").forEach((row) => {
      const inside = [...row.querySelectorAll("input")];
      const said = inside.filter((field) => field.type === "checkbox" ? field.checked : field.value);
      if (!said.length) return;
      const shown = said.map((field) => field.type === "checkbox" ? "done " + field.parentElement.textContent : field.value);
      lines.push("  " + row.textContent.trim().replace(/\s+/g, " ") + ": " + shown.join(", "));
    });
  });
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([lines.join("\n") + "\n"], { type: "text/plain" }));
  link.download = document.title + ".txt";
  link.click();
});
