// Ticks and readings stay in the browser, by card, row and place in it. A tick is taken back by a second touch within
// four seconds; a reading is kept by a touch, with the unit it was taken in, and fills in what is left.
const MM = { in: 25.4, mm: 1 };
const place = `halfnut ${location.pathname}`;
const cards = [...document.querySelectorAll(".card")];
let kept = {};
let keeps = true;
try { kept = JSON.parse(localStorage.getItem(place) || "{}"); } catch (error) { keeps = false; }
const store = (changes) => {
  Object.assign(kept, changes);
  try { localStorage.setItem(place, JSON.stringify(kept)); } catch (error) { keeps = false; }
  document.querySelector(".lost").hidden = keeps;
};
const last = (row) => { if (row) store({ last: keyOf(row) }); };

// ---- where a field is: its card, the number of its row, and its place among those of that number
const keys = new Map();
cards.forEach((card, at) => {
  let number = "";
  const count = {};
  card.querySelectorAll(".row, footer, .row input, footer input").forEach((each) => {
    if (each.matches("footer")) number = "foot";
    if (each.matches(".row")) number = each.querySelector(".no label")?.firstChild.data.trim() || number;
    const kind = each.matches("input") ? each.type : "row";
    count[number + kind] = (count[number + kind] || 0) + 1;
    keys.set(each, `${at} ${number} ${kind} ${count[number + kind]}`);
  });
});
const keyOf = (each) => keys.get(each);

// ---- ticks
document.querySelectorAll("input[type=checkbox]").forEach((tick) => {
  tick.checked = kept[keyOf(tick)] === true;
  const label = tick.parentElement;
  tick.addEventListener("click", (event) => {
    if (!tick.checked && !("back" in label.dataset)) { // the box shows what it would be after the touch
      event.preventDefault();
      label.dataset.back = "";
      setTimeout(() => delete label.dataset.back, 4000);
      return;
    }
    delete label.dataset.back;
    store({ [keyOf(tick)]: tick.checked });
    last(tick.closest(".row"));
  });
});

// ---- readings
const read = (text, unit) => {
  const found = /^\s*(\d*[.,]?\d+)\s*(in|mm)?\s*$/.exec(text);
  return found && { value: parseFloat(found[1].replace(",", ".")), text: found[1], unit: found[2] || unit };
};
document.querySelectorAll("input.box").forEach((box) => {
  const key = keyOf(box), unit = box.closest(".card").dataset.unit, sum = box.closest("[data-less], [data-from]");
  const left = sum && sum.querySelectorAll("input")[1];
  if (box === left) { box.readOnly = true; return; }
  const isReading = box.matches(".row .box");
  const fill = () => {
    if (!left) return;
    const found = read(box.value, unit), aim = parseFloat(sum.dataset.less ?? sum.dataset.from);
    const taken = found && found.value * MM[found.unit] / MM[unit];
    const shown = found ? (sum.dataset.less ? taken - aim : aim - taken).toFixed(4).replace(/0$/, "") : "";
    left.value = shown;
  };
  box.value = kept[key]?.text ?? "";
  fill();
  if (!isReading) {
    box.addEventListener("input", () => store({ [key]: { text: box.value } }));
    return;
  }
  const button = document.createElement("button");
  button.type = "button";
  button.className = "fix";
  const show = (isKept) => {
    box.readOnly = isKept;
    button.textContent = isKept ? "change" : "keep";
    button.hidden = !isKept && !read(box.value, unit);
  };
  box.addEventListener("input", () => { fill(); show(false); store({ [key]: { text: box.value } }); });
  button.addEventListener("click", () => {
    if (box.readOnly) { show(false); box.focus(); return; }
    const found = read(box.value, unit);
    box.value = `${found.text} ${found.unit}`;
    store({ [key]: { text: box.value, at: new Date().toISOString().slice(0, 16).replace("T", " ") } });
    show(true);
    last(box.closest(".row"));
  });
  box.after(button);
  show(Boolean(kept[key]?.at));
});

// ---- where one was: the same row is on the screen when the page is opened again
const back = [...document.querySelectorAll(".row")].find((row) => keyOf(row) === kept.last);
if (back) {
  back.dataset.last = "";
  addEventListener("load", () => back.scrollIntoView({ block: "center" }));
}

// ---- text to send
document.querySelector(".keep button").addEventListener("click", () => {
  const lines = [];
  cards.forEach((card) => {
    lines.push(card.querySelector("h1").textContent + ", " + card.querySelector("header p").textContent);
    card.querySelectorAll(".row, footer p").forEach((row) => {
      const said = [...row.querySelectorAll("input")].flatMap((field) => {
        if (field.type === "checkbox") return field.checked ? ["done " + field.parentElement.textContent] : [];
        const at = kept[keyOf(field)]?.at;
        return field.value ? [field.value + (at ? ` (${at})` : "")] : [];
      });
      const words = [...row.querySelectorAll(".what, .after, .used, .n")].map((each) => each.textContent)[0] ?? row.textContent;
      if (said.length) lines.push("  " + words.replace(/\b(keep|change)\b/g, "").trim().replace(/\s+/g, " ") + ": " + said.join(", "));
    });
  });
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([lines.join("\n") + "\n"], { type: "text/plain" }));
  link.download = document.title + ".txt";
  link.click();
});

// ---- the screen stays on while a card is open; where the device does not allow it, it is as it was
const stayOn = () => {
  if (document.visibilityState === "visible") navigator.wakeLock?.request("screen").catch(() => undefined);
};
["visibilitychange", "pointerdown"].forEach((event) => document.addEventListener(event, stayOn));
stayOn();
store({});
