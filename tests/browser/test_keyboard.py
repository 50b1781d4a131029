"""Without a pointer: a whole set logged, changed and taken back, the trend read and a weight asked for."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from playwright.sync_api import expect

from tests.browser.conftest import Phone, Served, at_rest
from tests.browser.test_main_job import said, sets_of

if TYPE_CHECKING:
    from playwright.sync_api import Page

DESK = {"viewport": {"width": 1280, "height": 900}, "is_mobile": False, "has_touch": False}
MOST_STEPS = 60  # on the way from one thing to another; more would be no way
STEP = """() => {
  const look = e => {  // of the element and of the boxes just around it, where a field shows its focus
    const found = [];
    for (let n = 0; e && n < 4; n += 1, e = e.parentElement) {
      const s = getComputedStyle(e);
      found.push([s.outlineStyle === 'none' ? '' : s.outlineWidth + s.outlineColor, s.boxShadow, s.borderColor].join('|'));
    }
    return found.join(' ');
  };
  const before = window.lastFocused, e = document.activeElement;
  const unmarked = before && before.element.isConnected && before.element !== e && look(before.element) === before.look
    ? before.name : null;
  if (e === document.body) { window.lastFocused = null; return {name: '', unmarked, covered: null, backwards: null}; }
  const words = e.labels?.length ? e.labels[0].innerText : '';
  const icons = [...e.querySelectorAll('[data-testid="stIconMaterial"]')].map(each => each.innerText);
  const said = icons.reduce((text, icon) => text.replace(icon, ''), e.innerText || '');
  const name = (e.getAttribute('aria-label') || words || said || e.value || e.tagName).trim().replace(/\\s+/g, ' ').slice(0, 60);
  const box = e.getBoundingClientRect();
  const top = document.elementFromPoint(box.x + box.width / 2, box.y + Math.min(box.height, 600) / 2);
  const covered = top && !e.contains(top) && !top.contains(e) ? name : null;
  const follows = before && before.element.isConnected
    ? Boolean(before.element.compareDocumentPosition(e) & Node.DOCUMENT_POSITION_FOLLOWING) : true;
  window.lastFocused = {element: e, look: look(e), name};
  return {name, unmarked, covered, backwards: follows ? null : before.name + ' -> ' + name};
}"""


@dataclass(frozen=True)
class Keys:
    """The keys of somebody who has no pointer; each step is looked at."""

    page: Page

    def step(self, *, back: bool = False) -> str:
        """Press Tab; the focus is seen, covered by nothing, and further on (or further back)."""
        self.page.keyboard.press("Shift+Tab" if back else "Tab")
        self.page.wait_for_timeout(40)
        seen = self.page.evaluate(STEP)
        assert seen["unmarked"] is None, f"looks the same with focus and without: {seen['unmarked']}"
        assert seen["covered"] is None, f"something lies over it: {seen['covered']}"
        if not back:
            assert seen["backwards"] is None, seen["backwards"]
        return seen["name"]

    def to(self, name: str, *, back: bool = False) -> None:
        """Go on until the focus is on what begins with this name."""
        passed: list[str] = []
        for _ in range(MOST_STEPS):
            passed.append(self.step(back=back))
            if passed[-1].startswith(name):
                return
        raise AssertionError(f"no way to {name}: {passed}")

    def press(self, *keys: str) -> None:
        for key in keys:
            self.page.keyboard.press(key)
        at_rest(self.page)


def test_a_set_is_logged_changed_and_taken_back_the_trend_read_and_a_weight_asked_for(served: Served, phone: Phone):
    page = phone(f"{served.url}/?member={served.members['Wren']}", **DESK)
    keys = Keys(page)
    assert keys.step() == "Skip to main content"
    keys.press("Enter")
    keys.to("Done: 4 × 60 kg")
    keys.press("Enter")
    said(page, "Saved: 4 × 60 kg")

    keys.to("Change it")
    keys.press("Space")
    keys.to("+ 2.5")
    keys.press("Enter")
    expect(page.get_by_label("Load, kg", exact=True)).to_have_value("67.5")
    keys.to("Repetitions")
    keys.press("ArrowDown")
    keys.to("0")  # the first of the repetitions left
    keys.press("ArrowRight", "ArrowRight", "Space")
    keys.to("Log this set")
    keys.press("Enter")
    said(page, "Saved: 3 × 67.5 kg, 2 left")
    assert sets_of(served, "Wren") == ["done 4 x 60 kg rir None", "done 3 x 67.5 kg rir 2"]
    keys.to("Undo", back=True)
    keys.press("Space")
    said(page, "Taken back: logged front squat, barbell: 3 x 67.5 kg")
    assert sets_of(served, "Wren") == ["done 4 x 60 kg rir None"]

    keys.to("Trend", back=True)
    keys.press("Enter")
    expect(page.locator("h1")).to_have_text("Trend")
    keys.to("Rep-max")
    keys.press("ArrowDown", "ArrowDown", "Enter")
    expect(page.get_by_text("RM today:")).to_be_visible()
    keys.to("Why")
    keys.press(*["ArrowRight"] * 5, "Space")
    expect(page.get_by_text("Save as CSV")).to_be_visible()

    keys.to("Weights", back=True)
    keys.press("Enter")
    expect(page.locator("h1")).to_have_text("Weights")
    keys.to("edit Today's sets: 4 reps at")
    keys.press("Enter")
    keys.to("Sets")
    keys.press("Control+A")
    page.keyboard.type("2x3@80")
    keys.press("Enter")
    expect(page.get_by_text("2 sets of 3 at 80 %")).to_be_visible()
    expect(page.locator(".rung .load b").filter(has_text="65 kg")).to_be_visible()
