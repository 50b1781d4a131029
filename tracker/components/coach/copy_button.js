// Copies a text where the browser lets it, and says so. Over plain http there is no clipboard to ask for: then the way of old
// browsers is taken, and where that fails too the line is opened, marked, to be copied by hand.
const SAID_MS = 4000;

function byHand(text) {
  const field = document.createElement("textarea");
  field.value = text;
  field.setAttribute("readonly", "");
  field.style.cssText = "position:fixed;top:0;left:0;opacity:0";
  document.body.append(field);
  field.select();
  let done = false;
  try { done = document.execCommand("copy"); } catch { done = false; }
  field.remove();
  return done;
}

async function copied(text) {
  try {
    await navigator.clipboard.writeText(text);
    return true;
  } catch { return byHand(text); }
}

export default function ({data, parentElement}) {
  const button = parentElement.querySelector("button"), words = button.querySelector("b"), told = parentElement.querySelector("p");
  let timer = 0;
  words.textContent = data.label;
  told.textContent = "";
  button.onclick = async () => {
    const done = await copied(data.text);
    button.focus();
    told.textContent = done ? data.done : data.failed;
    clearTimeout(timer);
    if (done) timer = setTimeout(() => { told.textContent = ""; }, SAID_MS);
  };
  return () => clearTimeout(timer);
}
