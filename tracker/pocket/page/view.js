// Draws the day as HTML text; every word of a person or a coach goes through `esc`.

import {card, care, esc, p, reasons} from "./card.js";
import {asLast, besides, cutOff, dayOf, eachField, eachTime, reading, runs, time, times, told} from "./next.js";

const button = (label, data, kind = "", more = "") => `<button type="button" class="${kind}" ${data} ${more}>${esc(label)}</button>`;
const pills = (label, name, rows, chosen, id) => `<div class="pills" role="group" aria-label="${esc(label)}">${rows.map(([value, words, more]) =>
  `<button type="button" id="${id}_${value}" data-${name}="${esc(value)}" aria-pressed="${String(chosen) === String(value)}" ${more || ""}>${esc(words)}</button>`).join("")}</div>`;

export function top(view) {
  const {plan, ui} = view, many = (plan && plan.members || []).length > 1;
  const who = plan ? esc(plan.member.name) : "Tidemark";
  return `<div class="bar-top"><svg class="mark" viewBox="0 0 24 24" aria-hidden="true"><path d="M2 7q2.5-3 5 0t5 0 5 0 5 0M2 13q2.5-3 5 0t5 0 5 0 5 0M2 19q2.5-3 5 0t5 0 5 0 5 0"/></svg>` +
    `<p class="who">${who}</p>${button("Menu", `id="menu" data-do="menu" aria-expanded="${Boolean(ui.menu)}" aria-controls="menu_box"`, "plain")}</div>${state(view)}` +
    `<nav id="menu_box" aria-label="More" ${ui.menu ? "" : "hidden"}>${ui.menu ? menu(view, many) : ""}</nav>`;
}

function menu({plan, ui, kept, can}, many) {
  const id = plan ? plan.member.id : "", at = name => `/${name}${id ? `?member=${encodeURIComponent(id)}` : ""}`;
  const pages = [["", "Today, in full"], ["trend", "Trend"], ["weights", "Weights"], ["sheet", "Sheet"], ["conditioning", "Pieces"], ["journal", "Journal"], ["kit", "Kit"], ["preferences", "Preferences"]];
  return `${many ? `<p class="over" id="whose">Whose day</p><ul class="links" aria-labelledby="whose">${plan.members.map(each => `<li><a href="/day/?member=${encodeURIComponent(each)}" data-member="${esc(each)}" ${each === plan.member.name ? 'aria-current="page"' : ""}>${esc(each)}</a></li>`).join("")}</ul>` : ""}` +
    `<p class="over" id="pages">Other pages</p><ul class="links" aria-labelledby="pages">${pages.map(([name, words]) => `<li><a href="${at(name)}">${words}</a></li>`).join("")}</ul>` +
    `<p class="over" id="phone">This phone</p><div class="col" role="group" aria-labelledby="phone">${button("Sound", `id="sound" data-do="sound" aria-pressed="${ui.sound}"`)}${button("Vibration", `id="vibration" data-do="vibration" aria-pressed="${ui.vibration}"`)}${can.wake ? button("Screen stays on while you train", `id="lit" data-do="lit" aria-pressed="${ui.lit}"`) : ""}` +
    `${button("A phone opens this page first", `id="first" data-do="first" aria-pressed="${ui.first}"`)}${button(`Save what waits as a file (${kept})`, 'id="to_file" data-do="to_file"')}<label class="file">Take in such a file<input type="file" id="from_file" accept="application/json,.json"></label>${p("note", ui.fromFile)}` +
    `${plan && plan.sign_in ? button("Sign out", 'id="sign_out" data-do="sign_out"') : ""}</div>` +
    `<p class="small">${can.worker ? "This page opens without a connection, too." : "Over plain http the phone can't open this page without a connection: leave it open in the basement. What you touch is kept in this browser, and the screen may go dark while a clock runs."}` +
    ` ${ui.lasting === false ? "The browser does not promise to keep things for long: hand over within a week. A private window keeps them until it is closed." : ""}</p>` +
    `<p class="small">What is kept belongs to this address. Before the address changes, or this page goes to the home screen, wait until all is saved; what still waits can be saved as a file, and taken in there.</p>`;
}

const isStale = ({plan, today, line}) => plan.day !== today || (Date.now() - Date.parse(plan.as_of)) / 3600000 >= 6 && !line.reached;

export function state(view) {
  const {kept, line, storeBroken, refusedActs, plan, ui, unkept} = view;
  const n = kept, some = n === 1 ? "1 touch" : `${n} touches`;
  const kind = storeBroken || ui.full || refusedActs.length || unkept ? "refused" : n ? "kept" : "saved";
  let words = n ? `${some} kept on this phone` : "All saved";
  if (storeBroken) words = "This browser keeps nothing: each touch goes straight to the log, and counts only where that is reached";
  else if (ui.full) words = `${n ? `${some} kept. ` : ""}This phone is full: each touch goes straight to the log, and counts only where that is reached`;
  else if (line.trouble === "sign in") words = n ? `${some} kept: sign in to hand over` : "Sign in to see your day";
  else if (line.trouble === "pair") words = n ? `${some} kept: pair this phone to hand over` : "This phone is not paired";
  else if (line.trouble === "other user") words = `${some} kept for whoever made them: they go to the log once that person is back`;
  else if (line.trouble === "reload") words = `${some} kept: reload this page to hand over`;
  else if (refusedActs.length) words = `${refusedActs.length} not taken in, see below${n ? `; ${some} kept` : ""}`;
  else if (n && line.reached === false) words = `${some} kept on this phone. The log is not reached: sent by itself once it is`;
  else if (n) words = `${some} kept, on the way to the log`;
  else if (line.reached === false) words = `No connection: touches are kept here${plan && !isStale(view) ? `. Plan as of ${clockTime(plan.as_of)}` : ""}`;
  else if (line.at) words = `All saved ${clockTime(line.at)}`;
  const way = line.trouble === "sign in" ? ' <a href="/">Sign in</a>' : line.trouble === "pair" ? ' <a href="/">Pair it</a>' : "";
  return `<p id="state" class="state ${kind}" data-kept="${n}" data-state="${kind}"><i aria-hidden="true"></i><span>${esc(words)}${way}</span></p>` + promise(view) +
    (ui.fresh ? `<p class="state kept"><span>A new version is here. ${button("Take it", 'id="fresh" data-do="fresh"', "plain")}</span></p>` : "");
}

// How long what is kept is kept, where that is not for good: said before a touch counts on it.
const LONG_KEPT = 86400000;
function promise({can, ui, storeBroken, oldest}) {
  if (storeBroken || ui.full) return "";
  if (!can.worker) return p("promise small", "Leave this page open: over plain http it does not open again without a connection.");
  if (ui.lasting === false && oldest && Date.now() - oldest > LONG_KEPT) return p("promise small", `Kept since ${clockTime(oldest)}, and this browser does not promise to keep it for good: hand over soon, or save it as a file (in the menu).`);
  return "";
}

// In words of our own: a browser that loads its words for days takes longer for it than for drawing the day.
const WEEKDAYS = ["Sunday", "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday"], MONTHS = ["January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"];
const two = number => String(number).padStart(2, "0");
const clockTime = moment => { const at = new Date(moment), same = at.toDateString() === new Date().toDateString(); return `${same ? "" : `${WEEKDAYS[at.getDay()].slice(0, 3)} `}${two(at.getHours())}:${two(at.getMinutes())}`; };

// The parts of the day in their order; each is written anew only where it changed.
export function main(view) {
  const {plan, now} = view;
  if (!plan) return [nobody(view)];
  return [asks(view), refusals(view), stale(view), head(view), warm(view), rest(view), next(view), effort(view), undo(view), stopSigns(view), warmBelow(view), doneList(view), thenList(view), free(view), missed(view), ahead(view), allPages(view), back(view)];
}

// What a phone that is let in no more can promise, and what not.
const waits = n => n ? `<p>${n === 1 ? "1 touch waits" : `${n} touches wait`} here still, for the log has ${n === 1 ? "it" : "them"} not: shown to nobody, and handed over once whoever made ${n === 1 ? "it" : "them"} is back.</p>` : "";
const promised = n => `<p>What this phone kept of your day was taken off it just now. As long as it had no connection, it had its plan still.</p>${waits(n)}`;

function nobody({line, trouble, kept}) {
  if (line.trouble === "sign in") return `<section class="card" data-next="nothing" data-title=""><h1>Sign in first</h1><p>Whose day this is, only the log says.</p>${promised(kept)}<a class="go" href="/">Sign in</a></section>`;
  if (line.trouble === "pair") return `<section class="card" data-next="nothing" data-title=""><h1>Not paired any more</h1><p>This phone was removed on the laptop, or was not used for long.</p>${promised(kept)}<a class="go" href="/">Pair it again</a></section>`;
  const why = trouble || (line.reached === false ? "The log is not reached, and this phone has no plan of yours yet. Open this page once with a connection." : "Nobody is in this log yet.");
  return `<section class="card" data-next="nothing" data-title=""><h1>No day yet</h1><p>${esc(why)}</p><a class="go" href="/">Go to the log</a></section>`;
}

// Whoever goes there stays there: the bare address opens the pages from then on, until this page is chosen again.
const allPages = ({plan}) => `<p class="foot"><a class="go" id="all_pages" href="/?member=${encodeURIComponent(plan.member.id)}" data-do="all_pages">All pages</a></p>`;

function stale(view) {
  const {plan} = view;
  return !isStale(view) ? "" : `<p class="note">The plan on this phone is of ${esc(clockTime(plan.as_of))}. It may have changed since: loads after a miss, or a session that was moved.</p>`;
}

function head({plan, now, today, calendar}) {
  const session = now.on;
  const ticks = session ? session.lines.map(each => `<i class="${each.done ? (each.done.outcome === "missed" ? "missed" : "done") : each === now.next.line ? "now" : ""}"></i>`).join("") : "";
  const missed = session ? session.lines.filter(each => each.done && each.done.outcome === "missed").length : 0;
  const count = session && session.lines.length ? `${session.lines.filter(each => each.done).length - missed} of ${session.lines.length} sets done${missed ? `, ${missed} missed` : ""}` : "";
  return `<div class="head"><h1>${esc(session ? session.title : "Today")}</h1>${p("place", plan.place)}` +
    `${today === calendar ? "" : `<div class="note" id="still"><p>Still ${esc(dayWords(today))}: what is begun before midnight is of that day.</p>${button("Go to the new day", 'id="new_day" data-do="new_day"')}</div>`}` +
    `${ticks ? `<div class="ticks" role="img" aria-label="${count}">${ticks}</div>` : ""}${plan.cautions.map(each => p("note", each)).join("")}` +
    `${session && session.notes.length ? `<details id="coach"><summary>Coach's words</summary>${session.notes.map(each => p("", each)).join("")}</details>` : ""}</div>`;
}

export function asked({plan, answered, now}) {  // the question after a heavier set is drawn from what this phone knows of it
  const {line, session} = now.next, change = line && session.changes.get(line.lift), open = change && !change.down && !change.said && change.moves;
  const own = open ? session.heavier?.[`${line.lift} ${change.asked} ${change.load}`] : null;
  const rest = plan.asks.filter(each => !answered.has(each.key) && (!each.key.startsWith("heavier ") || open && !own));
  return own ? [...rest, own] : rest;
}

function asks(view) {
  return asked(view).map((each, at) => `<section class="card ask" aria-label="A question"><p>${esc(each.words)}</p><div class="row">` +
    each.answers.map((one, n) => button(one.words, `id="ask_${at}_${n}" data-do="answer" data-ask="${esc(each.key)}" data-n="${n}"`)).join("") + "</div></section>").join("");
}

function refusals({refusedActs, changedActs, unkept, trouble, ui}) {
  return changedActs.map(each => `<section class="card ask"><p>${esc(each.result.words)}</p><div class="row">${button("Seen", `id="seen_${each.id}" data-do="seen" data-id="${each.id}"`)}</div></section>`).join("") + (trouble ? `<section class="card ask" role="alert"><p>${esc(trouble)}</p></section>` : "") + (unkept ? `<section class="card ask" role="alert"><p><b>Not kept, not logged:</b> ${esc(unkept.words)}. ${esc(unkept.why)}</p><div class="row">${button("Try again", 'id="retry" data-do="retry"', "main")}${button("Leave it", 'id="leave_it" data-do="drop_unkept"')}</div></section>` : "") +
    refusedActs.map(each => `<section class="card ask"><p><b>Not taken in:</b> ${esc(each.body.words || each.kind)}. ${esc(each.result.words)}</p>${each.result.slip ? `<label class="label" for="fix_${each.id}">Load, ${esc(each.body.unit)}</label><input id="fix_${each.id}" data-field="fix_${each.id}" inputmode="decimal" autocomplete="off" value="${esc(ui.fields[`fix_${each.id}`] ?? each.body.load)}">` : ""}<div class="row">` +
    `${each.result.slip ? button("Log it with this load", `id="fixed_${each.id}" data-do="fix" data-id="${each.id}"`, "main") + button("Log it as it is", `id="sure_${each.id}" data-do="sure" data-id="${each.id}"`) : ""}${button("Put away", `id="drop_${each.id}" data-do="drop" data-id="${each.id}"`)}</div></section>`).join("");
}

const warmWay = (session, how, words, id) => button(words, `id="${id}" data-do="warm" data-how="${how}" data-step="${session.id}"`);
const begun = session => session.lines.some(each => each.done) || session.pieces.some(each => each.done);
function warm({now, ui}) {
  const session = now.on, up = session && session.warm_up;
  if (!up || up.done || up.out || session.over || begun(session)) return "";
  return `<section class="card soft${ui.shut ? " shut" : ""}" aria-labelledby="warm_head"><details id="warm_box" ${ui.warm ?? true ? "open" : ""}><summary><h2 id="warm_head">Warm-up first</h2></summary>${up.lines.map(each => p("", each)).join("")}</details><div class="row">${warmWay(session, "done", "Warm-up done", "warm")}${warmWay(session, "out", "Leave it out", "warm_out")}</div></section>`;
}

// Once it is done, left out or gone past it stands below, to be read again, ticked off or taken back.
function warmBelow({now}) {
  const session = now.on, up = session && session.warm_up, settled = up && (up.done || up.out);
  if (!up || session.over || !settled && !begun(session)) return "";
  const way = settled ? warmWay(session, "open", up.done ? "Not done yet" : "Not left out", "warm_open") : warmWay(session, "done", "Warm-up done", "warm");
  return `<details id="warm_below" class="list"><summary>${settled ? `Warm-up: ${up.done ? "done" : "left out"}` : "Warm-up"}</summary>${up.lines.map(each => p("", each)).join("")}${way}</details>`;
}

function next(view) {
  const {kind, title} = view.now.next;
  const inner = {set: setCard, piece: pieceCard, rating: ratingCard, nothing: nothingCard}[kind](view);
  return `<section class="card next" data-next="${kind}" data-title="${esc(title)}" aria-label="What is next">${inner}</section>`;
}

export function picked(line, ui) {
  const at = ui.pick[line.key];
  const near = at === undefined ? null : line.near[at];
  return near ? {...line, load: near.load, unit: near.unit, load_words: near.words, discs: near.discs, chance: near.chance, made: near.made, asked: `${times(line)}${near.words}`, other: true} : line;
}

function setCard(view) {
  const {now, ui} = view, session = now.next.session, asked = now.next.line, line = asLast(picked(asked, ui), session, now);
  const which = asked.which;
  if (asked.withheld?.length) return withheldCard(view, asked, which);
  const before = session.lines.filter(each => each.done && each.lift === asked.lift).at(-1);
  const lost = before && before.done.outcome === "missed";
  const parts = [card({...line, load: asked.load === null ? null : line.load, which, chance: now.stale.has(asked.lift) ? "" : line.chance}), p("note", asked.held), p("note", line.like), weigh(view, asked)];
  const change = session.changes.get(asked.lift), other = change && asked.ways && (change.taken || change.said) ? change : null;
  if (other && !lost) parts.push(`<div class="row">${button(other.taken ? `As asked: ${asked.ways.asked}` : `Go on with ${asked.ways.then}`, `id="carry" data-do="carry"`)}</div>`);
  if (lost) parts.push(afterMiss(asked, line, now.stale.has(asked.lift), before.done, view.plan));
  if (session.ramp.length && !session.lines.some(each => each.done)) parts.push(`<p class="ramp"><b>Up to it:</b> ${session.ramp.map(esc).join(", ")}</p>`);
  if (ui.open === "missed") parts.push(missedBox(line));
  else if (ui.open === "change" || asked.open && !proposed(asked)) parts.push(editor(view, asked, line));
  else if (asked.test) parts.push(attempt(line, session));
  else parts.push(button(`Done: ${times(line)}${line.load_words}`, 'id="done" data-act="done"', "main"), withLeft(line, view.plan),
    `<div class="row">${button("Missed", 'id="missed" data-act="missed"')}${button("Change it", 'id="change" data-act="change"')}</div>`);
  parts.push(startClock(view, asked));
  parts.push(more(view, asked));
  parts.push(reasons({...line, part: line.other ? "" : line.part, notes: line.notes.filter(each => each !== line.proposal)}));
  return parts.join("");
}

// An attempt with a load that is proposed: made in a touch; missed asks how many went up.
const proposed = line => line.test && line.load !== null;
const ending = session => button("End the test", `id="end_test" data-do="end_test" data-step="${session.id}"`);
function attempt(line, session) {
  const missed = button("Missed", 'id="missed" data-act="missed"');
  return button(`Made: ${line.asked}`, 'id="done" data-act="done"', "main") + `<div class="row">${missed}${button("Another load", 'id="change" data-act="change"')}</div>${line.tried.length + (line.tries || []).length ? `<div class="row">${ending(session)}</div>` : ""}`;
}

// One touch logs the set and how hard it was.
const withLeft = (line, plan) => !line.left_asked ? "" : `<div class="with-left" role="group" aria-labelledby="with_left"><p class="label" id="with_left">${line.rated ? "Done, at an RPE of" : "Done, with reps left"}</p><div class="pills">` +
  `${efforts(line, plan).map(([n, words, short]) => button(short, `id="done_${spot(n)}" data-do="done_left" data-left="${n}" aria-label="Done: ${esc(times(line))}${esc(line.load_words)}, ${words}"`)).join("")}</div></div>`;

// How hard a set was: by the repetitions that were left, or where the coach asks so as RPE, which is kept as what it leaves.
const efforts = (line, plan) => line?.rated ? plan.ratings.map(([left, rating]) => [left, `RPE ${rating}`, rating]) : LEFT.map(([n, words]) => [n, `${words} left`, brief(n)]);
const chosenEffort = (line, plan) => [["", "not said"], ...efforts(line, plan).map(([n, words, short]) => [n, line?.rated ? short : words.replace(/ left$/, "")])];
const spot = n => String(n).replace(".", "_");
const lineOf = (now, row) => now.on?.lines.find(line => line.done && line.done.id === row.id);

// The coach's interval as a clock of its own; `main.js` lets it run where the rest stands.
function startClock({now}, line) {
  if (!line.every_s || now.setClock && runs(now.setClock, Date.now())) return "";
  const sets = now.next.session.lines.filter(each => each.lift === line.lift && each.every_s === line.every_s).length;
  return button(`Start the clock: ${sets} × ${time(line.every_s)}`, `id="set_clock" data-do="set_clock" data-sets="${sets}"`, "second");
}

// The body mass, where the body is lifted and it is not known or is old; kept here like any touch.
function weigh({plan, ui, now}, line) {
  if (!line.body || now.weighed || plan.body_known && !plan.ask_body) return "";
  return `<div class="ask-body"><p class="note">${esc(plan.ask_body || "No body mass is known: enter it once.")}</p><div class="row"><input id="body_mass" data-field="body_mass" inputmode="decimal" autocomplete="off" aria-label="Body mass, ${plan.member.unit}" placeholder="${plan.member.unit}" value="${esc(ui.fields.body_mass ?? "")}">${button("Keep it", 'id="weigh" data-do="weigh"')}</div>${p("note", ui.bodyWants)}</div>`;
}

// Ways beside what is next: none of them is in the way of the next touch.
function more({plan, now}, line) {
  const session = now.next.session, left = session.lines.filter(each => !each.done && !each.left), same = left.every(each => !line || each.lift === line.lift);
  const done = line && session.lines.filter(each => each.done && each.done.id && each.lift === line.lift).at(-1), piece = session.pieces.some(each => !each.done);
  const days = Array.from({length: 7}, (_, n) => { const day = new Date(); day.setDate(day.getDate() + n + 1); return dayOf(day); });
  const ways = [
    line && !(same && !piece) ? button(`${title(line)} later`, 'id="later" data-do="later"') : "",
    line && piece ? button("The piece first", 'id="piece_first" data-do="piece_first"') : "",
    !line && left.length ? button(`Back to the sets: ${left.length} left`, 'id="to_sets" data-do="to_sets"') : "",
    done && done.done.outcome !== "missed" ? button(`Enough of ${bare(line)} today`, `id="enough" data-do="enough" data-how="stop" data-id="${done.done.id}"`) + button("It hurts: no more of it", `id="hurts" data-do="enough" data-how="hurt" data-id="${done.done.id}"`) : "",
    button("End the session here", `id="end_here" data-do="end" data-step="${session.id}"`),
  ];
  return `<details id="more" class="more"><summary>Not as planned</summary><div class="col">${ways.join("")}</div>` +
    `<p class="label" id="move_label">Move the session to another day; only this one moves</p><div class="pills" role="group" aria-labelledby="move_label">${days.map(day => button(dayWords(day).replace(/ \w+$/, ""), `id="move_${day}" data-do="move" data-to="${day}"`)).join("")}</div></details>`;
}
const bare = line => line.title.split(",")[0], title = line => bare(line).replace(/^./, sign => sign.toUpperCase());

// No load and no touch that logs one: what keeps it from that is answered on Today's page, or gone past here.
function withheldCard({plan}, line, which) {
  return `<p class="over">${esc(which)}</p><h2 class="lift">${esc(line.title)}</h2><p class="big small">${esc(line.asked)}</p>${line.withheld.map(each => p("note", each)).join("")}` +
    (line.safety ? `<div class="col">${line.safety.map((each, n) => button(each.words, `id="safety_${n}" data-do="safety" data-n="${n}"`)).join("")}</div>` :
      `<p>Other ways, and answers, are on Today's page.</p><a class="go" id="to_today" href="${todayOf(plan)}">Go to Today's page</a>`) +
    `<div class="row">${button("Go on without it", 'id="pass" data-do="pass"')}</div>${line.notes.map(each => p("note", each)).join("")}${care(line.cautions)}${signs(plan)}`;
}

const todayOf = plan => `/?member=${encodeURIComponent(plan.member.id)}`;
const signs = plan => plan.signs?.length ? `<details id="signs"><summary>When to stop, and when to see a clinician</summary>${plan.signs.map(each => p("", each)).join("")}</details>` : "";

function afterMiss(asked, line, stale, row, plan) {
  const told = plan.after_miss && plan.after_miss.set === row.id ? plan.after_miss.words : ["The last one was missed: less, the same again, or enough of this lift; not more today."];
  const top = Number(asked.load), lower = asked.near.map((each, at) => ({...each, at})).filter(each => Number(each.load) < top).slice(-2).reverse();
  const ways = lower.map(each => button(`Less: ${each.words}${each.chance && !stale ? ` (${each.chance})` : ""}`, `id="less_${each.at}" data-do="pick" data-at="${each.at}" aria-pressed="${line.load === each.load}"`));
  return `<div class="after"><p class="note">${esc(told.join(" "))}${stale ? " How likely each is, the log says once it has the miss." : ""} If something hurts, stop: that is for a clinician.</p><div class="col">${ways.join("")}${line.other ? button(`As planned: ${asked.load_words}`, 'id="less_none" data-do="pick" data-at=""') : ""}${button("Enough of this lift today", `id="enough" data-do="enough" data-how="stop" data-id="${row.id}"`)}${button("It hurts: no more of it", `id="hurts" data-do="enough" data-how="hurt" data-id="${row.id}"`)}</div></div>`;
}

function missedBox(line) {
  const rows = Array.from({length: line.reps}, (_, n) => n).reverse();
  return `<div class="missed-box" role="group" aria-labelledby="how_many"><p id="how_many"><b>Missed at ${esc(line.load_words)}. How many went up${line.each_side ? ", each side" : ""}?</b></p><div class="pills">${rows.map(n => `<button type="button" id="reps_${n}" data-reps="${n}">${n ? n : "none"}</button>`).join("")}</div>${button("Not missed", 'id="close" data-do="close"', "plain")}</div>`;
}

function stepper(id, label, value, unit = "", mode = "decimal") {
  return `<div class="stepper"><label for="${id}">${esc(label)}</label><div>${button("−", `id="${id}_less" data-step-of="${id}" data-by="-1" aria-label="Less: ${esc(label)}"`)}<input id="${id}" data-field="${id}" inputmode="${mode}" autocomplete="off" value="${esc(value)}" placeholder="${unit ? "" : "?"}">${unit ? `<span>${esc(unit)}</span>` : ""}${button("+", `id="${id}_more" data-step-of="${id}" data-by="1" aria-label="More: ${esc(label)}"`)}</div></div>`;
}

const far = (ui, field) => ui.far?.field === field ? `<div class="far" role="alert">${p("note", ui.far.words)}${button("Log it as it is", `id="as_it_is" data-do="as_it_is"`)}</div>` : "";

function editor({ui, now, plan}, asked, line) {
  const f = ui.fields, test = asked.test, left = chosenEffort(asked, plan), name = asked.rated ? "Effort (RPE)" : "Reps left";
  return `<div class="editor">${stepper("load", "Load", f.load ?? line.load ?? "", line.unit)}${far(ui, "load")}${stepper("reps_done", line.each_side ? "Repetitions, each side" : "Repetitions", f.reps_done ?? (line.uncounted ? "" : line.reps), "", "numeric")}` +
    (test ? "" : `<p class="label" id="left_label">${name}</p>${pills(name, "rir", left, f.rir ?? "", "rir")}`) +
    `<label class="label" for="note">Note</label><input id="note" data-field="note" value="${esc(f.note ?? "")}" maxlength="300" autocomplete="off">` +
    (asked.build_up ? button("Log it and go on", 'id="on_the_way" data-do="on_the_way"', "main") : "") +
    button(test ? "Made: log this attempt" : asked.build_up ? "Log it: the heaviest of today" : "Log this set", 'id="done" data-act="done"', asked.build_up ? "second" : "main") +
    `<div class="row">${button("Missed", 'id="missed" data-act="missed"')}${test ? ending(now.next.session) + (proposed(asked) ? button("Close", 'id="close" data-do="close"', "plain") : "") : asked.open ? "" : button("As planned", 'id="close" data-do="close"', "plain")}</div></div>`;
}

// When to stop: one touch away on every day, without a connection too; open at a test, in first sessions and coming back.
function stopSigns({plan, now, ui}) {
  const stop = plan.stop, open = ui.stop ?? (stop.open || Boolean(now.next.line?.test));
  return `<details id="stop" class="stop" ${open ? "open" : ""}><summary>When to stop</summary>${stop.lists.map(each => `<p><b>${esc(each.head)}</b><br>${each.signs.map(esc).join(" · ")}</p>`).join("")}${p("small", stop.basis)}</details>`;
}

function pieceCard(view) {
  const {now, ui} = view, piece = now.next.piece, clock = now.clock && now.clock.piece === piece.id ? now.clock : null;
  const parts = [`<p class="over">Piece</p><h2 class="lift">${esc(piece.title)}</h2><p class="scheme">${esc(piece.scheme)}</p>`];
  if (piece.sore?.length) parts.push(...piece.sore.map(each => p("note", each)), signs(view.plan));
  parts.push(care(piece.cautions));
  if (clock) parts.push(clockFace(piece, clock));
  parts.push(`<ul class="moves">${piece.movements.map((each, at) => `<li><span>${esc(each.words)}</span>${ones(each, at, ui)}${options(each, at, ui)}</li>`).join("")}</ul>`, ...piece.notes.map(each => p("note", each)));
  if (piece.sides.length) parts.push(`<p class="label">Which of the two numbers is yours?</p>`, pills("Which number is yours", "side", piece.sides, ui.fields.side, "side"));
  if (!clock && !piece.clock.none) parts.push(`<p class="label">Count-in</p>${pills("Count-in", "count", [["0", "none"], ["3", "3 s"], ["10", "10 s"]], ui.fields.count ?? "10", "count")}`, button("Start the clock", 'id="start" data-act="start"', "second"));
  parts.push(piece.way === "done" ? done(view, piece) : score(view, piece, clock), more(view, null));
  return parts.join("");
}

// One bell where two are asked is another version: said beside the movement, and kept with the score.
const ones = (movement, at, ui) => { const on = ui.fields[`ones_${at}`] ?? (movement.one_here ? "one" : "two"); return !movement.two ? "" : `<div class="pills" role="group" aria-label="How many: ${esc(movement.name)}">${[["two", "With two"], ["one", "With one"]].map(([value, words]) => button(words, `id="ones_${at}_${value}" data-ones="${value}" data-at="${at}" aria-pressed="${on === value}"`)).join("")}</div>`; };
const options = (movement, at, ui) => movement.options.length < 2 && !movement.unit ? "" : `<details id="swap_${at}"><summary>${movement.options.length < 2 ? "Another load" : movement.unit ? "Instead, or another load" : "Instead"}</summary>${movement.unit ? load(movement, at, ui) : ""}${movement.options.length < 2 ? "" : pills(`Instead of ${movement.name}`, `swap-${at}`, movement.options.map(([name, words]) => [name, words ? `${name}, ${words}` : name]), (ui.fields.swaps || {})[at] ?? movement.here ?? movement.name, `swap_${at}`)}</details>`;
const load = (movement, at, ui) => `<label class="label" for="used_${at}">Load that you use, ${movement.unit}</label><input id="used_${at}" data-field="used_${at}" inputmode="decimal" autocomplete="off" value="${esc(ui.fields[`used_${at}`] ?? "")}" placeholder="as written">`;

function clockFace(piece, clock) {
  const at = reading(clock, piece.clock, Date.now()), over = at.phase === "over";
  const each = piece.clock.each, taps = !over && at.phase !== "rest" && at.phase !== "ready" && !piece.clock.work && piece.taps !== 0 && (piece.taps === null || clock.taps.length < piece.taps);
  const splits = each ? eachTime(clock, piece.clock) : clock.taps.map((tap, n) => time((tap - (n ? clock.taps[n - 1] : clock.zero)) / 1000));
  return `<div class="clock"><p class="phase" id="clock_phase">${at.phase}</p><p class="face" id="clock_face" role="timer" aria-live="off">${time(at.shown)}</p><p class="nowdo" id="clock_now" ${over ? "hidden" : ""}></p><p class="then" id="clock_then" ${over ? "hidden" : ""}></p>` +
    `${taps ? button(`${each ? "Interval" : "Round"} ${clock.taps.length + 1} done`, 'id="tap" data-do="tap"', "main") : ""}${splits.length ? `<p class="small">${each ? "Intervals" : "Rounds"}: ${splits.join(", ")}</p>` : ""}` +
    `${splits.length ? button(`Take ${each ? "interval" : "round"} ${splits.length} back`, `id="untap" data-do="back" data-of="${clock.tapped}"`, "plain") : ""}` +
    `${over ? `<div class="row">${clock.stop ? button("It goes on", `id="go_on" data-do="back" data-of="${clock.stop}"`) : ""}${button("Put the clock away", 'id="away" data-do="away"', "plain")}</div>` : button("Stop the clock", 'id="stop" data-act="stop"', "second stop")}</div>`;
}

// A piece without a score: its rounds are ticked movement by movement, and it is done by a touch.
function done({ui}, piece) {
  const {rounds, movements, done} = piece.ticks ?? {rounds: 0, movements: [], done: []};
  const has = (at, task) => done.some(each => each[0] === at && each[1] === task), whole = at => movements.every((_, task) => has(at, task));
  const on = Array.from({length: rounds}, (_, at) => at).find(at => !whole(at)), first = rounds > MOST_TICKED ? Math.max(0, (on ?? rounds) - 1) : 0;
  const parts = [];
  for (let at = first; at < Math.min(rounds, first + MOST_TICKED); at += 1) {
    const label = rounds > 1 ? `Round ${at + 1} of ${rounds}` : "Tick what is done";
    parts.push(`<p class="label">${label}</p><div class="pills" role="group" aria-label="${label}">${movements.map((words, task) => button(words, `id="tick_${at}_${task}" data-do="tick" data-round="${at}" data-task="${task}" aria-pressed="${has(at, task)}"`)).join("")}</div>`);
    if (at === on) parts.push(button(rounds > 1 ? `All of round ${at + 1}` : "All of it", `id="tick_round" data-do="tick" data-round="${at}" data-task=""`, "second"));
  }
  const note = `<label class="label" for="note">Note (may stay blank)</label><input id="note" data-field="note" maxlength="300" autocomplete="off" value="${esc(ui.fields.note ?? "")}">`;
  return `<div class="score">${parts.join("")}${note}${button(piece.ticks && on === undefined ? "All done: log it" : "Done: log it", 'id="score" data-act="score"', "main")}${p("note", ui.scoreWants)}</div>`;
}
const MOST_TICKED = 10;  // rounds that are drawn at once

function score({ui}, piece, clock) {
  const f = ui.fields, over = clock && reading(clock, piece.clock, Date.now()).phase === "over";
  const cut = cutOff(clock, piece, Date.now()), shown = clock && over && !cut ? time(reading(clock, piece.clock, Date.now()).shown) : "";
  const parts = [`<h3>Your score</h3>`];
  const field = (id, label, mode = "text", value = "", such = "") => `<label class="label" for="${id}">${esc(label)}</label><input id="${id}" data-field="${id}" inputmode="${mode}" value="${esc(f[id] ?? value)}" placeholder="${esc(such)}" autocomplete="off">`;
  const ways = piece.way === "time" ? [["finished", "Finished"], ...(piece.capped ? [["cap", "Ran into the cap"]] : []), ["stopped", "Stopped early"]] : [];
  const way = f.way ?? (ways.length && !cut ? "finished" : "");
  if (cut && !f.way) parts.push(p("label", "Time is up. Did you finish?"));
  if (ways.length) parts.push(pills("How it ended", "way", ways, way, "way"));
  if (piece.way === "time" && way && way !== "cap") parts.push(field("time", way === "stopped" ? "Stopped at" : "Time", "text", shown, "8:41"));
  if (piece.rounds && (piece.way === "rounds" || way && way !== "finished")) parts.push(rounds(piece, clock, f));
  if (piece.way === "number") parts.push(field("amount", {m: "Metres", cal: "Calories", s: "Seconds"}[piece.unit] || "Repetitions in all", "numeric"));
  if (piece.way === "load") parts.push(field("amount", "Load", "decimal", "", "92.5 kg"));
  if (piece.way === "each" && eachField(piece)) { const told = clock ? eachTime(clock, piece.clock) : []; for (let n = 0; n < piece.clock.intervals; n += 1) parts.push(field(`each_${n}`, `Interval ${n + 1}`, "text", told[n] ?? "", "not timed")); }
  else if (piece.way === "each") parts.push(piece.clock.each ? field("amount", "Time of each interval", "text", clock ? eachTime(clock, piece.clock).join(", ") : "", "1:52, 1:54, 1:55") : field("amount", `Each interval${piece.unit ? `, ${piece.unit}` : ""}`, "text", "", "57, 55, 54"));
  if (piece.way === "kept") parts.push(`<p class="label">Intervals done in full</p>`, pills("Intervals done in full", "finished", Array.from({length: (piece.most || 0) + 1}, (_, n) => [n, String(n)]), f.finished, "finished"));
  if (piece.partners > 1) parts.push(field("partner", "Partner's name (may stay blank; stays in your own log)"));
  parts.push(field("note", "Note"), button("Log the score", 'id="score" data-act="score"', "main"), p("note", ui.scoreWants));
  return `<div class="score">${parts.join("")}</div>`;
}

function rounds(piece, clock, f) {
  const one = piece.rounds.length === 1 || piece.taps === 0, chosen = f.finished ?? (clock && clock.taps.length ? clock.taps.length : one ? 0 : null);
  const shown = piece.rounds.filter(each => f.moreRounds || each.n <= Math.max(11, Number(chosen ?? 0) + 3));
  const parts = one ? [] : [`<p class="label">Rounds finished</p>`, pills("Rounds finished", "finished", shown.map(each => [each.n, each.n < 0 ? each.words : String(each.n), `aria-label="${each.n < 0 ? "" : `${each.n}: `}${esc(each.words)}"`]), chosen, "finished"), shown.length < piece.rounds.length ? button("More rounds", 'id="more_rounds" data-do="more_rounds"', "plain") : ""];
  const round = piece.rounds.find(each => each.n === Number(chosen));
  if (!one && chosen !== null && round) parts.push(p("chance", round.words));
  if (chosen !== null && round && round.moves.length) {
    if (round.moves.length > 1) parts.push(`<p class="label">Then, of the next</p>`, pills("Movements done of the next round", "moves", round.moves, f.moves ?? 0, "moves"));
    const of = round.reps[Number(f.moves ?? 0)];
    if (of && of[0] !== 1) parts.push(stepper("more_reps", `And of ${of[0] > 0 && of[0] < 100000 ? `the ${of[0]} ` : ""}${of[1]}`, f.more_reps ?? 0, "", "numeric"));
  }
  return parts.join("");
}

function ratingCard({plan, now, ui}) {
  const f = ui.fields, rows = Array.from({length: 11}, (_, n) => [n, String(n)]);
  const word = f.rating === undefined ? "The session as a whole; best half an hour after it." : plan.anchors[f.rating] || `between ${plan.anchors[Math.max(...Object.keys(plan.anchors).map(Number).filter(n => n < f.rating))].toLowerCase()} and the next`;
  return `<p class="over">${esc(now.next.session.title)}</p><h2 class="lift">How hard was it?</h2>${pills("How hard, 0 to 10", "rating", rows, f.rating, "rating")}<p class="chance" aria-live="polite">${esc(word)}</p>` +
    `<label class="label" for="minutes">Minutes (may stay blank)</label><input id="minutes" data-field="minutes" inputmode="numeric" autocomplete="off" value="${esc(f.minutes ?? "")}"><label class="label" for="note">Note</label><input id="note" data-field="note" maxlength="300" autocomplete="off" value="${esc(f.note ?? "")}">` +
    `${button(f.rating === undefined ? "Log the rating" : `Log ${f.rating} of 10`, 'id="rate" data-act="rate"', "main")}<div class="row">${button("Leave it open", 'id="leave" data-do="leave"', "plain")}</div>${p("note", ui.rateWants)}`;
}

function nothingCard({now, plan}) {
  const session = now.on, then = now.ahead[0];
  if (session && session.to_end) return `<h2 class="lift">${esc(session.title)}</h2><p>Your coach's words alone.</p>${button("It is done", `id="end" data-do="end" data-step="${session.id}"`, "main")}`;
  const out = session ? leftOut(session) : "", words = out ? "This session is ended." : session ? "All of it is done." : "Nothing is planned for today.";
  return `<h2 class="lift">${words}</h2>${p("left-out", out)}${session && session.rating !== null && session.answered ? `<p>Rated ${esc(session.rating)} of 10.</p>` : ""}${then ? `<p>Next: ${esc(then.title)}, ${esc(dayWords(then.due))}.</p>` : plan.lifts.length ? "<p>Log what you do below, or read a coach's sheet in on the page Sheet.</p>" : `<p>Read a coach's sheet in on the page Sheet, or log a first set on Today's page: from then on its lift stands here too.</p><a class="go" id="to_today" href="${todayOf(plan)}">Go to Today's page</a>`}`;
}

// What of a session was not done, by name.
function leftOut(session) {
  const sets = new Map();
  for (const each of session.lines) if (!each.done) sets.set(each.title, (sets.get(each.title) || 0) + 1);
  const names = [...[...sets].map(([name, n]) => `${n} ${n === 1 ? "set" : "sets"} of ${name}`), ...session.pieces.filter(each => !each.done).map(each => each.title)];
  return names.length ? `Left out: ${names.join("; ")}.` : "";
}

export const dayWords = day => { const at = new Date(`${day}T12:00`); return `${WEEKDAYS[at.getDay()]} ${at.getDate()} ${MONTHS[at.getMonth()]}`; };

function rest() {
  return `<p class="rest" id="rest" role="timer" aria-live="off" hidden></p>`;
}

function undo({now}) {
  return now.last ? `<div class="undo">${button(`Undo: ${told(now.last)}`, `id="undo" data-act="undo" data-of="${now.last.of}"`)}</div>` : "";
}

// What a stray touch may have done is turned round where the hand is.
function back({now}) {
  if (!now.back) return "";
  const {of, stands, words, undid} = now.back, said = undid ? (stands ? `Put back: ${words}` : `Taken back: ${words}`) : words;
  return `<div class="back" role="group" aria-label="The last touch"><span>${esc(said)}</span>${button(undid && !stands ? "Put it back" : "Take it back", `id="back" data-do="back" data-of="${of}"`)}</div>`;
}

// Six and more are one answer, as in the log; one that said five for it would say too little of what was left.
const LEFT = [0, 1, 2, 3, 4, 5, 6].map(n => [String(n), n === 6 ? "6 or more" : String(n)]);
const brief = n => n === "6" ? "6+" : n;

// One touch more says how hard the last set was; who does not say it goes on.
function effort({now, plan}) {
  const row = now.sets.at(-1);
  if (!row || row.rir !== null && row.rir !== "" || row.outcome !== "done" || row.kind === "test" || Date.now() - Date.parse(row.at) > 20 * 60000 || now.hurts.has(row.lift)) return "";
  if (now.on && now.on.lines.some(line => (line.test || line.technical) && line.lift === row.lift)) return "";
  const line = lineOf(now, row);
  return `<section class="effort" aria-labelledby="effort_head"><p class="label" id="effort_head">Last set, ${esc(row.said)}: ${line?.rated ? "RPE?" : "reps left?"}</p><div class="pills" role="group" aria-labelledby="effort_head">${efforts(line, plan).map(([n, words, short]) => button(short, `id="effort_${spot(n)}" data-do="effort" data-id="${esc(row.id)}" data-n="${n}" data-said="${esc(words)}" aria-label="${esc(words)}"`)).join("")}</div></section>`;
}

const unbroken = ({words, said}) => words.endsWith(said) && said.length < 18 ? `${esc(words.slice(0, -said.length))}<span class="nb">${esc(said)}</span>` : esc(words);

function doneList({now, ui, plan}) {
  if (!now.sets.length) return "";
  const row = each => `<li class="${each.outcome}"><span>${unbroken(each)}</span>${each.kept ? '<em class="chip">kept</em>' : '<em class="chip saved">saved</em>'}${button("Edit", `id="mend_${each.id}" data-do="mend" data-id="${each.id}" aria-label="Edit: ${esc(each.words)}"`, "plain")}${ui.mend === each.id ? mend(each, ui, lineOf(now, each), plan) : ""}</li>`;
  return `<section class="list" aria-labelledby="done_head"><h2 id="done_head">Done today</h2><ul>${[...now.sets].reverse().map(row).join("")}</ul></section>`;
}

function mend(row, ui, line, plan) {
  const f = ui.fields, left = chosenEffort(line, plan), name = line?.rated ? "Effort (RPE)" : "Reps left";
  return `<div class="editor">${stepper("mend_load", "Load", f.mend_load ?? row.load, row.unit)}${far(ui, "mend_load")}${stepper("mend_reps", row.each_side ? "Repetitions, each side" : "Repetitions", f.mend_reps ?? row.reps, "", "numeric")}<p class="label">${name}</p>${pills(name, "rir", left, f.rir ?? row.rir ?? "", "rir")}` +
    `<label class="label" for="note">Note</label><input id="note" data-field="note" maxlength="300" value="${esc(f.note ?? row.note)}" autocomplete="off">${row.max ? p("note", `This set made your ${row.max}. Another load, fewer repetitions or no set at all take it back too.`) + pills("The max that it made", "keepmax", [["no", "Take it back too"], ["yes", "Keep it"]], f.keepmax ?? "no", "keepmax") : ""}` +
    `${button("Keep the change", `id="mend_keep" data-do="mend_keep" data-id="${row.id}"`, "main")}<div class="row">${button("Remove this set", `id="remove" data-do="remove" data-id="${row.id}"`)}</div></div>`;
}

const thenList = ({now}) => now.then.length ? `<section class="list" aria-labelledby="then_head"><h2 id="then_head">Then</h2><ul>${now.then.map(each => `<li><span>${esc(each.title)}</span><span class="soft">${each.times > 1 ? `${each.times} sets of ` : ""}${esc(each.words)}</span></li>`).join("")}</ul></section>` : "";

function free({plan, ui, now}) {
  if (!plan.lifts.length) return "";
  const f = ui.fields, lift = besides(plan, now, f.free_lift);
  return `<details id="free" class="list" ${ui.freeOpen ? "open" : ""}><summary>Another set, beside the plan</summary><div class="editor"><label class="label" for="free_lift">Lift</label><select id="free_lift" data-field="free_lift">${plan.lifts.map(each => `<option value="${esc(each.id)}" ${each.id === lift.id ? "selected" : ""}>${esc(each.title)}</option>`).join("")}</select>${p("note", lift.note)}${p("small", lift.last ? `Last time: ${lift.last}` : "")}` +
    `${now.next.line?.body ? "" : weigh({plan, ui, now}, {body: lift.body && !plan.body_known})}${stepper("free_load", lift.body ? "Added load" : "Load", f.free_load ?? lift.load, lift.unit)}${far(ui, "free_load")}${stepper("free_reps", lift.each_side ? "Repetitions, each side" : "Repetitions", f.free_reps ?? lift.reps, "", "numeric")}<label class="label" for="free_note">Note</label><input id="free_note" data-field="free_note" maxlength="300" autocomplete="off" value="${esc(f.free_note ?? "")}">${button(ui.freeAsked ? `Yes, log ${times(lift)}${lift.near.find(each => each.load === lift.load)?.words || `${lift.load} ${lift.unit}`}` : "Log it", 'id="free_log" data-do="free_log"', "second")}</div></details>`;
}

const sessions = (head, id, rows, more) => rows.length ? `<section class="list" aria-labelledby="${id}"><h2 id="${id}">${head}</h2><ul>${rows.map(each => `<li class="session"><span><b>${esc(each.title)}</b><br><span class="soft">${esc(dayWords(each.due))}${each.begun ? `; ${esc(each.begun)}` : ""}</span></span><div class="row">${button(more ? "Do it now" : "Begin", `id="begin_${each.id}" data-act="begin" data-session="${each.id}" aria-label="${more ? "Do it now" : "Begin"}: ${esc(each.title)}"`)}${more ? button("Skip it", `id="skip_${each.id}" data-do="skip" data-session="${each.id}" aria-label="Skip: ${esc(each.title)}"`, "plain") : ""}</div></li>`).join("")}</ul></section>` : "";
const missed = ({now}) => sessions("Missed", "missed_head", now.missed, true);
const ahead = ({now}) => sessions("Coming", "ahead_head", now.ahead, false);
