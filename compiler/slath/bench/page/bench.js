// Follows the pattern: asks for its state whenever the stream of changes tells a new version, and renews what is in sight.
const byId = (id) => document.getElementById(id);
const chosen = ["size", "units", "vocabulary", "language", "style"];
const PART_FIGURES = [
  [/^base|slath|stick/, /^(base|board)/],
  [/stake|prick/, /^(staking|side)/],
  [/border|foot/, /^(foot-)?border/],
  [/handle|ear|bow/, /^(lid-)?handle|^ear/],
  [/lid/, /^lid/],
  [/side|band|upsett|wale|rim|profile/, /^(side|profile|stroke|colour|view)/],
];
let state = null;
let seen = new Map();
let asked = 0;
let onCount = null;

function query(more = {}) {
  const words = new URLSearchParams();
  for (const id of chosen) {
    const value = byId(id).value;
    if (value && id !== "size") words.set(id, value);
  }
  if (byId("hand").checked) words.set("hand", "left");
  for (const [name, value] of Object.entries(more)) words.set(name, value);
  return words.toString();
}

async function ask(path, more) {
  const answer = await fetch(`${path}?${query(more)}`);
  if (!answer.ok) throw new Error(await answer.text());
  return answer.json();
}

function element(name, text = "", kind = "") {
  const made = document.createElement(name);
  if (text) made.textContent = text;
  if (kind) made.className = kind;
  return made;
}

function options(select, names, words = (name) => name) {
  const before = select.value;
  if (select.dataset.names === names.join("\n")) return;
  select.dataset.names = names.join("\n");
  select.replaceChildren(...names.map((name) => new Option(words(name), name)));
  select.value = names.includes(before) ? before : names[0] ?? "";
}

async function renew() {
  const turn = ++asked;
  let found;
  try {
    found = await ask("state");
  } catch {
    byId("status").textContent = "slath has stopped; start it again to go on.";
    document.body.classList.add("wrong");
    return;
  }
  if (turn !== asked) return; // a later save has been asked for since
  state = found;
  document.title = `${state.title} – slath`;
  byId("title").textContent = state.title;
  options(byId("size"), state.sizes);
  options(byId("language"), state.choices.languages, (code) => new Intl.DisplayNames(["en"], { type: "language" }).of(code));
  options(byId("style"), ["", ...state.choices.styles], (name) => name || "the edition's own");
  document.body.classList.toggle("wrong", state.wrong);
  const errors = state.notes.filter((note) => note.severity === "error").length;
  byId("status").textContent = state.wrong
    ? `${state.file} has ${errors === 1 ? "an error" : `${errors} errors`}. What you see is how it was before.`
    : `${state.file}, as it was saved last.`;
  document.body.dataset.version = state.version;
  showNotes();
  showLines();
  showNumbers();
  showFigures();
  for (const [section, show] of whenSeen) {
    section.dataset.due = "yes";
    if (near(section)) due(section, show);
  }
}

// What takes longer is made only when it is looked at.
const whenSeen = new Map([[byId("counts"), showCounts], [byId("pages"), showPage]]);

function due(section, show) {
  if (section.dataset.due !== "yes") return;
  section.dataset.due = "";
  show();
}

const sections = new IntersectionObserver((entries) => {
  for (const entry of entries) if (entry.isIntersecting) due(entry.target, whenSeen.get(entry.target));
});
for (const section of whenSeen.keys()) sections.observe(section);

function near(shown) {
  const box = shown.getBoundingClientRect();
  return box.bottom > 0 && box.top < innerHeight;
}

function showNotes() {
  const items = state.notes.map((note) => {
    const item = element("li", "", note.severity);
    const where = [note.size, note.part].filter(Boolean).join(", ");
    item.append(element("strong", `${note.severity === "error" ? "Error" : note.severity === "warning" ? "Warning" : "Advice"} `));
    const link = element("a", `line ${note.line}`);
    link.href = `#line-${note.line}`;
    link.addEventListener("click", () => light(note));
    item.append(link, document.createTextNode(`${where ? `, ${where}` : ""}: ${note.message}`));
    if (note.remedies.length) {
      const list = element("ul");
      list.append(...note.remedies.map((remedy) => element("li", remedy)));
      item.append(list);
    }
    return item;
  });
  byId("note-list").replaceChildren(...items);
  if (!items.length) byId("note-list").append(element("li", "Nothing to say."));
}

function showLines() {
  const marks = new Map();
  for (const note of state.notes) if (marks.get(note.line) !== "error") marks.set(note.line, note.severity);
  const lines = state.text.replace(/\n$/, "").split("\n").map((line, place) => {
    const item = element("li", line || " ", marks.get(place + 1) ?? "");
    item.id = `line-${place + 1}`;
    return item;
  });
  byId("lines").replaceChildren(...lines);
}

function light(note) {
  for (const lit of document.querySelectorAll(".lit")) lit.classList.remove("lit");
  byId(`line-${note.line}`)?.classList.add("lit");
  const part = note.part.toLowerCase();
  const match = PART_FIGURES.find(([words]) => words.test(part));
  if (!match) return;
  for (const figure of document.querySelectorAll("#figures figure")) figure.classList.toggle("lit", match[1].test(figure.dataset.name));
}

function showNumbers() {
  const table = byId("number-table");
  const head = element("tr");
  head.append(element("th", "Number"), ...state.sizes.map((size) => element("th", size)));
  for (const cell of head.children) cell.scope = "col";
  const now = new Map();
  const rows = state.numbers.map((row) => {
    const line = element("tr");
    const name = element("th", `${row.part}, ${row.what}`);
    name.scope = "row";
    line.append(name, ...row.values.map((value, place) => {
      const key = `${name.textContent}|${state.sizes[place]}`;
      now.set(key, value);
      return element("td", value, seen.size && seen.get(key) !== value ? "changed" : "");
    }));
    return line;
  });
  seen = now;
  const header = element("thead");
  header.append(head);
  const body = element("tbody");
  body.append(...rows);
  table.replaceChildren(header, body);
}

const inSight = new IntersectionObserver((entries) => {
  for (const entry of entries) if (entry.isIntersecting) load(entry.target);
});

function load(image) {
  if (image.dataset.wanted && image.dataset.wanted !== image.dataset.shown) {
    image.dataset.shown = image.dataset.wanted;
    image.src = image.dataset.wanted;
  }
}

function want(image, address) {
  image.dataset.wanted = address;
  if (near(image)) load(image);
}

function showFigures() {
  const size = byId("size").value;
  const there = new Map([...document.querySelectorAll("#figures figure")].map((figure) => [figure.dataset.name, figure]));
  const names = [...state.figures].sort((one, other) => (other === "view") - (one === "view"));
  const figures = names.map((name) => {
    let figure = there.get(name);
    if (!figure) {
      figure = element("figure");
      figure.dataset.name = name;
      const image = element("img");
      image.alt = name.replaceAll("-", " ");
      image.addEventListener("error", () => { figure.hidden = true; });
      image.addEventListener("load", () => { figure.dataset.version = image.dataset.version; });
      figure.append(image, element("figcaption", image.alt));
      inSight.observe(image);
    }
    return figure;
  });
  byId("figures").replaceChildren(...figures);
  for (const figure of figures) {
    figure.hidden = false;
    const image = figure.firstElementChild;
    image.dataset.version = state.version;
    want(image, `figure?${query({ size, name: figure.dataset.name, version: state.version })}`);
  }
}

async function showCounts() {
  const size = byId("size").value;
  if (!size) return;
  let counts;
  try {
    counts = await ask("counts", { size });
  } catch {
    counts = [];
  }
  if (!counts.length) byId("on-count").replaceChildren(element("p", "This base has no stakes to count."));
  const items = counts.map((count) => {
    const item = element("li", "", count.own ? "own" : "");
    item.append(element("p", `${count.stakes} stakes${count.own ? ", as it is" : ""}`));
    if (count.drawn) {
      const image = element("img");
      image.alt = `The side on ${count.stakes} stakes: ${count.colours}`;
      image.loading = "lazy";
      image.src = `what-if?${query({ size, stakes: count.stakes, name: "side", version: state.version })}`;
      item.append(image);
    }
    item.append(element("p", count.colours));
    for (const reason of count.against) item.append(element("p", `${count.suits ? "But" : "Cannot be woven:"} ${reason}`));
    if (count.drawn && !count.own) {
      const button = element("button", `See the basket on ${count.stakes}`);
      button.type = "button";
      button.addEventListener("click", () => { onCount = count; showOnCount(); });
      item.append(button);
    }
    return item;
  });
  byId("count-list").replaceChildren(...items);
  if (onCount) {
    onCount = counts.find((count) => count.stakes === onCount.stakes && count.drawn) ?? null;
    showOnCount();
  }
}

function showOnCount() {
  const place = byId("on-count");
  place.replaceChildren();
  if (!onCount) return;
  const image = element("img");
  image.alt = `The basket on ${onCount.stakes} stakes`;
  image.src = `what-if?${query({ size: byId("size").value, stakes: onCount.stakes, name: "view", version: state.version })}`;
  place.append(element("h3", `On ${onCount.stakes} stakes`), image);
  for (const change of onCount.changes) place.append(element("p", change));
  const line = `stakes: {count: ${onCount.stakes}}`;
  const button = element("button", "Copy the line to write under stakes:");
  button.type = "button";
  button.addEventListener("click", async () => {
    await navigator.clipboard.writeText(`count: ${onCount.stakes}`);
    button.textContent = `Copied: count: ${onCount.stakes}`;
  });
  place.append(element("code", line), document.createTextNode(" "), button);
}

let pages = 0;

async function showPage() {
  const image = byId("page");
  try {
    pages = await ask("pages");
  } catch {
    pages = 0;
  }
  const number = byId("page-number");
  number.max = pages || 1;
  if (pages && Number(number.value) > pages) number.value = pages;
  byId("page-count").textContent = pages ? `of ${pages}` : "no pages yet";
  image.hidden = !pages;
  if (!pages) return;
  image.alt = `Page ${number.value} of ${pages}`;
  image.dataset.version = state.version;
  image.src = `page?${query({ number: number.value, version: state.version })}`;
}

function turn(by) {
  const number = byId("page-number");
  number.value = Math.min(Math.max(1, Number(number.value) + by), pages || 1);
  showPage();
}

byId("back").addEventListener("click", () => turn(-1));
byId("on").addEventListener("click", () => turn(1));
byId("page-number").addEventListener("change", () => turn(0));
for (const id of [...chosen, "hand"]) byId(id).addEventListener("change", renew);
byId("choices").addEventListener("submit", (event) => event.preventDefault());

const changes = new EventSource("changes");
changes.addEventListener("message", renew);
changes.addEventListener("error", () => {
  byId("status").textContent = "Waiting for slath …";
});
