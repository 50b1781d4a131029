// Shows a piece's clock from the moments that the log holds; it writes nothing, so a reload or a locked phone loses nothing.
(() => {
  const box = document.getElementById("piece_clock");
  if (!box) return;
  const plan = JSON.parse(box.dataset.plan);
  const skew = Date.now() - plan.now; // this device's clock against that of the log
  const big = box.querySelector(".clock"), small = box.querySelector(".clock-phase"), now = box.querySelector(".clock-now");
  const said = s => { const t = Math.max(0, Math.floor(s)); return `${Math.floor(t / 60)}:${String(t % 60).padStart(2, "0")}`; };
  let sound = null, before = "", shown = -1;
  const turn = elapsed => { // what this interval asks; in a rest already the next one
    if (!plan.turns.length || !now) return;
    const whole = plan.work + plan.rest, n = Math.max(0, Math.floor(elapsed / whole)), resting = elapsed >= 0 && elapsed % whole >= plan.work;
    const at = Math.min(plan.turns.length - 1, plan.ends ? plan.ends.length : resting ? n + 1 : n);
    if (at === shown) return;
    shown = at;
    now.replaceChildren(...plan.turns[at].map(([kind, words]) => {
      const line = document.createElement("p");
      line.className = kind;
      line.textContent = words;
      return line;
    }));
  };
  const beep = long => {
    if (!plan.sound) return;
    sound = sound || new (window.AudioContext || window.webkitAudioContext)();
    const tone = sound.createOscillator();
    tone.frequency.value = long ? 880 : 440;
    tone.connect(sound.destination);
    tone.start();
    tone.stop(sound.currentTime + (long ? 0.5 : 0.12));
  };
  const reading = elapsed => {
    if (elapsed < 0) return ["Count-in", Math.ceil(-elapsed).toString(), Math.ceil(-elapsed) <= 3 ? `in${Math.ceil(-elapsed)}` : "in", false];
    if (plan.length !== null && elapsed >= plan.length) return ["Time. Enter your score.", said(plan.length), "over", true];
    if (plan.ends && plan.intervals) { // each interval ends with a touch, and the rest after it begins
      const n = plan.ends.length, began = n ? plan.ends[n - 1] + plan.rest : 0;
      if (elapsed < began) return [`Rest after ${n} of ${plan.intervals}`, said(Math.ceil(began - elapsed)), `${n}rest`, false];
      return [`Interval ${n + 1} of ${plan.intervals}, at ${said(elapsed)}`, said(elapsed - began), `${n}work`, true];
    }
    if (plan.work && plan.intervals) {
      const turn = plan.work + plan.rest, inside = elapsed % turn, n = Math.min(plan.intervals, Math.floor(elapsed / turn) + 1);
      const works = inside < plan.work, left = (works ? plan.work : turn) - inside;
      return [`${works ? "Interval" : "Rest after"} ${n} of ${plan.intervals}, at ${said(elapsed)}`, said(Math.ceil(left)), `${n}${works}`, works];
    }
    return [plan.cap ? `${said(Math.ceil(plan.cap - elapsed))} left of ${said(plan.cap)}` : "No cap", said(elapsed), "on", true];
  };
  const tick = () => {
    if (!box.isConnected) return clearInterval(timer);
    const [phase, time, state, long] = reading((Date.now() - skew - plan.zero) / 1000);
    big.textContent = time;
    small.textContent = phase;
    turn((Date.now() - skew - plan.zero) / 1000);
    if (before && state !== before) beep(long);
    before = state;
    if (state === "over") clearInterval(timer);
  };
  const timer = setInterval(tick, 200);
  tick();
  if (navigator.wakeLock) navigator.wakeLock.request("screen").catch(() => {}); // keeps the screen on where it may
})();
