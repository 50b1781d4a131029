// Draws the card of the next set by the day page's own module. Its words stand there without it: after a moment where it is
// slow, and for good where it can't be loaded.
const link = document.querySelector('link[rel="modulepreload"][href$="/card.js"]');
const PATIENCE_MS = 400;
let module = null;
const coming = link ? import(link.href).then(found => { module = found; }) : Promise.reject(new Error("it has no address"));
coming.catch(() => {});

export default function ({data, parentElement}) {
  const box = parentElement.querySelector(".set-card"), {set} = data;
  const plain = () => box.replaceChildren(...[`${set.which}: ${set.title}`, set.asked, set.made, set.chance, set.proposal, ...set.cautions.slice(0, 1).map(each => each.line), set.part, ...set.last, ...set.notes].filter(Boolean).map(words => {
    const line = document.createElement("p");
    line.className = "plain";
    line.textContent = words;
    return line;
  }));
  const draw = () => { box.innerHTML = module.card(set) + module.reasons(set); };
  box.dataset.next = data.next;
  box.dataset.title = data.title;
  if (module) { draw(); return undefined; }
  const late = setTimeout(plain, PATIENCE_MS);
  coming.then(() => { clearTimeout(late); draw(); }, () => { clearTimeout(late); plain(); });
  return () => clearTimeout(late);
}
