// Keeps the code of an invitation over the way to the provider and back, in this tab alone, and hands it out there once.
const NAME = "invitation";

export default function ({data, setStateValue}) {
  try {
    const kept = sessionStorage.getItem(NAME);
    if (data.keep) sessionStorage.setItem(NAME, data.keep);
    else if (kept && !data.had) setStateValue("code", kept);
  } catch { /* a browser that keeps nothing: the code is typed */ }
}
