// Draws the places that a thumb reaches on a phone, and tells the page which one was touched. "More" opens the sidebar.
const MORE = '[data-testid="stExpandSidebarButton"]', SIDEBAR = '[data-testid="stSidebar"]';
const PATIENCE_MS = 300; // until what was opened stands there

function cell(tag, icon, words) {
  const made = document.createElement(tag), mark = document.createElement("span"), label = document.createElement("span");
  mark.className = "place-icon";
  mark.setAttribute("aria-hidden", "true");
  mark.setAttribute("translate", "no");
  mark.textContent = icon;
  label.textContent = words;
  made.append(mark, label);
  return made;
}

// Groups lie within a list there, where only things may: each group is told as a list of its own.
function told() {
  for (const list of document.querySelectorAll(`${SIDEBAR} ul`)) {
    list.setAttribute("role", "presentation");
    for (const group of list.querySelectorAll(":scope > div")) {
      group.setAttribute("role", "group");
      group.setAttribute("aria-label", group.querySelector("header")?.innerText.split("\n")[0] || "Pages");
    }
    for (const one of list.querySelectorAll("li")) one.setAttribute("role", "presentation");
  }
}

function open() {
  document.querySelector(MORE)?.click();
  setTimeout(() => { told(); document.querySelector(`${SIDEBAR} a`)?.focus(); }, PATIENCE_MS);
}

// The place that is open, by name; any other page stands behind "More".
function mark(bar, name) {
  const cells = [...bar.children], at = cells.find(each => each.dataset.place === name) || cells.at(-1);
  for (const each of cells) each === at ? each.setAttribute("aria-current", "page") : each.removeAttribute("aria-current");
}

function place(known, bar) {
  const link = cell("a", known.icon, known.title);
  link.dataset.place = known.name;
  link.onclick = event => {
    if (event.ctrlKey || event.metaKey || event.shiftKey) return; // in a window of its own
    event.preventDefault();
    mark(bar, known.name); // at once: the page itself comes from the log
    bar.go(known.name);
  };
  return link;
}

export default function ({data, parentElement, setTriggerValue}) {
  const bar = parentElement.querySelector("nav"), names = data.places.map(each => each.name).join(" ");
  bar.go = name => setTriggerValue("go", name);
  if (bar.dataset.names !== names) { // else what has the focus would lose it
    const more = cell("button", "menu", "More");
    more.type = "button";
    more.setAttribute("aria-haspopup", "true");
    more.onclick = open;
    bar.replaceChildren(...data.places.map(each => place(each, bar)), more);
    bar.dataset.names = names;
  }
  for (const each of data.places) bar.querySelector(`[data-place="${each.name}"]`).href = `/${each.path}${location.search}`;
  mark(bar, data.here);
  setTimeout(told, PATIENCE_MS);
}
