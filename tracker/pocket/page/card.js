// The card of a set or of an attempt: which it is, what to load, one end of the bar, how likely it is, and the one line of care.
// This page draws it so, and the day's page of the log as well, each with its own style sheet; every word of a person or a
// coach goes through `esc`.

const SIGNS = {"&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;", "'": "&#39;"};
export const esc = text => String(text ?? "").replace(/[&<>"']/g, sign => SIGNS[sign]);
export const p = (kind, words) => words ? `<p class="${kind}">${esc(words)}</p>` : "";

// One end of the bar, heaviest disc inside, each with its mass beneath; discs of one mass stand close, with one figure for all
// of them. Height and thickness follow the mass, and one of some 20 kg has a groove, so that it is told from 25 without a
// colour. What is drawn is at most so wide that its figures can be read on the narrowest phone.
const SHAFT = 40, END = 12, DIGIT = 9.5, GAP = 8;
export function discs(row) {
  if (!row.length) return "";
  const units = new Set(row.map(each => each[1])), share = kg => Math.min(1, kg / 25) ** 0.75;
  const groups = [];
  for (const [amount, unit, kg] of row) {
    const last = groups.at(-1);
    if (last && last.amount === amount && last.unit === unit) last.count += 1;
    else groups.push({amount, unit, kg, count: 1});
  }
  let left = SHAFT;
  const marks = groups.map(({amount, unit, kg, count}) => {
    const tall = 22 + 56 * share(kg), thick = 7 + 14 * share(kg), whole = count * (thick + 2) - 2;
    const label = (count > 1 ? `${count}×` : "") + amount + (units.size > 1 ? ` ${unit}` : ""), slot = Math.max(whole + 6, label.length * DIGIT + GAP);
    const first = left + (slot - whole) / 2, middle = left + slot / 2;
    left += slot;
    return Array.from({length: count}, (_, n) => {
      const x = first + n * (thick + 2);
      return `<rect class="disc" x="${fine(x)}" y="${fine(43 - tall / 2)}" width="${fine(thick)}" height="${fine(tall)}" rx="3"/>` +
        (kg >= 18 && kg < 22.5 ? `<rect class="groove" x="${fine(x + thick / 2 - 2)}" y="${fine(47 - tall / 2)}" width="4" height="${fine(tall - 8)}" rx="2"/>` : "");
    }).join("") + `<text x="${fine(middle)}" y="101" text-anchor="middle">${esc(label)}</text>`;
  }).join("");
  const wide = Math.ceil(left + END), words = units.size > 1 ? row.map(each => `${each[0]} ${each[1]}`).join(" + ") : `${row.map(each => each[0]).join(" + ")} ${row[0][1]}`;
  return `<svg class="bar-end" viewBox="0 0 ${wide} 106" style="max-width:${fine(wide * 1.3)}px" role="img" aria-label="${esc(`One end of the bar: ${words} a side`)}">` +
    `<rect class="bar" x="0" y="40" width="${SHAFT}" height="6" rx="2"/><rect class="bar" x="${SHAFT - 8}" y="32" width="7" height="22" rx="2"/>` +
    `<rect class="sleeve" x="${SHAFT}" y="38" width="${fine(wide - SHAFT - 2)}" height="10" rx="3"/>${marks}</svg>`;
}
const fine = number => String(Math.round(number * 10) / 10);

// The first line in sight, all else a touch away; see `cautions.said`, which writes the same.
export function care(rows) {
  if (!rows?.length) return "";
  return `<details class="care" id="care"><summary><b>${esc(rows[0].line)}</b> <span>Why</span></summary>` +
    rows.map(each => `<p class="plain caution">${esc(each.text)} ${esc(each.advice)} <small>(${esc(each.basis)})</small></p>`).join("") + "</details>";
}

export function card(set) {
  const small = set.load === null || set.asked.length > 11 ? " small" : "";
  return `<p class="over">${esc(set.which)}</p><h2 class="lift">${esc(set.title)}</h2><p class="big${small}">${esc(set.asked)}</p>` +
    discs(set.discs) + p("plain made", set.made) + p("chance", set.chance) + p("plain note", set.proposal) + care(set.cautions);
}

// What is to be known of it in sight; of which max it is a part, how that is known and what was done last time a touch away.
export const reasons = set => set.notes.map(each => p("plain note", each)).join("") + behind(set.part, set.last || []);

// Its line names the share alone: what stands before the equals sign or the first full stop of the whole sentence.
function behind(part, last) {
  const heads = [part && part.split(/ = |\. /)[0], last.length && "last time"].filter(Boolean);
  return heads.length ? `<details class="behind" id="behind"><summary>${esc(heads.join(" · ").replace(/^last/, "Last"))}</summary>${p("plain small", part)}${last.map(each => p("plain small before", each)).join("")}</details>` : "";
}
