// Shows the next set until the page itself has it, and hands on a touch that came before.
(() => {
  const card = ".st-key-next_set", real = ".st-key-log_as_asked button";
  const resting = '[data-testid="stApp"][data-test-script-state="notRunning"] [data-testid="stMain"] [data-testid="stElementContainer"]';
  const words = where => document.querySelector(where)?.innerText.replace(/\s+/g, " ").trim();
  const come = () => document.querySelector(`${card} button`);

  const say = what => {  // until the next touch
    const note = Object.assign(document.createElement("p"), {className: "early-touch-note", textContent: what});
    note.setAttribute("role", "status");
    (document.querySelector('[data-testid="stApp"]') ?? document.body).append(note);  // which knows the colours
    addEventListener("pointerdown", () => note.remove(), {once: true, capture: true});
  };

  const asked = new URLSearchParams(location.search);
  try { asked.set("zone", Intl.DateTimeFormat().resolvedOptions().timeZone); } catch {}
  const set = fetch(`first-sight?${asked}`).then(got => got.status === 200 ? got.text() : "");
  const page = new Promise(ready => document.readyState === "loading" ? addEventListener("DOMContentLoaded", ready) : ready());
  Promise.all([set, page]).then(([html]) => {
    if (!html || come()) return;
    const box = document.createElement("div");
    box.innerHTML = html;
    document.body.append(box);
    for (const each of box.querySelectorAll("script")) {  // the rest counts down; a script that is set as text doesn't run
      const runs = document.createElement("script");
      runs.textContent = each.textContent;
      each.replaceWith(runs);
    }
    // Only this very set is logged by an early touch: another device may have done it meanwhile, and the page shows the next.
    const said = [words(".first-sight section .over"), words(".first-sight .done")];
    let touched = false;
    box.querySelector(".done")?.addEventListener("click", ({currentTarget}) => {
      touched = currentTarget.disabled = true;
      box.querySelector(".soon").textContent = "Not saved yet. Waiting for the log to open.";
    });
    let waiting = 0;
    const end = () => {  // once, or a touch would be handed on twice
      box.remove();
      watch.disconnect();
      clearTimeout(waiting);
      if (!touched) return;
      if (words(`${card} .over`) === said[0] && words(real) === said[1]) document.querySelector(real).click();
      else say("Your early touch logged nothing. See what is next, and touch again.");
    };
    const look = () => {
      if (come()) end();
      // A page that has come to rest may still be drawing; or it shows something else: all done meanwhile, or a fault.
      else if (document.querySelector(resting)) waiting ||= setTimeout(end, 1000);
    };
    const watch = new MutationObserver(look);
    watch.observe(document.body, {subtree: true, childList: true, attributes: true, attributeFilter: ["data-test-script-state"]});
    look();  // it may be at rest already, and change no more
  }).catch(() => {});
})();
