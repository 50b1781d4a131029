"""What whoever has no key sees: one plain page with a form for the code, without a script, and short words for the rest."""

from __future__ import annotations

import json
import tomllib
from collections.abc import Awaitable, Callable, Mapping, MutableMapping
from dataclasses import dataclass
from functools import cache
from html import escape
from pathlib import Path
from typing import Any

from tracker.door.pairing import MOST_LETTERS, Code
from tracker.errors import TidemarkError

Send = Callable[[MutableMapping[str, Any]], Awaitable[None]]

PAIR, LAPTOP = "/pair", "/laptop"
UNPAIRED = 4401  # why a socket is refused; before it is accepted a browser sees 403
NOT_PAIRED = "This device is not paired with the laptop, or was removed. Reload the page to pair it."
_POLICY = (
    "default-src 'none'; style-src 'unsafe-inline'; img-src data:; form-action 'self'; base-uri 'none'; "
    "frame-ancestors 'none'"
)
_HEADERS = {
    "content-security-policy": _POLICY,
    "referrer-policy": "same-origin",  # with no-referrer a browser would not say which page sends the form
    "x-content-type-options": "nosniff",
    "cache-control": "no-store",
}


@dataclass(frozen=True, slots=True)
class Reply:
    """An answer of the gate itself."""

    status: int
    body: str = ""
    kind: str = "text/plain"
    headers: Mapping[str, str] | None = None


async def say(send: Send, method: str, reply: Reply) -> None:
    """Send an answer to a request."""
    body = reply.body.encode()
    headers = {
        **_HEADERS, "content-type": f"{reply.kind}; charset=utf-8", "content-length": str(len(body)), **(reply.headers or {}),
    }  # fmt: skip
    pairs = [(name.encode("latin-1"), value.encode("latin-1")) for name, value in headers.items()]
    await send({"type": "http.response.start", "status": reply.status, "headers": pairs})
    await send({"type": "http.response.body", "body": b"" if method == "HEAD" else body})


async def close(send: Send) -> None:
    """Refuse a socket before it is accepted."""
    await send({"type": "websocket.close", "code": UNPAIRED, "reason": "not paired"})


def pair_link(origin: str, code: Code) -> str:
    """Return the link that a code's picture holds; whoever follows it still has to touch a button."""
    return f"{origin}{PAIR}?code={code.text}"


def plain(status: int, text: str) -> Reply:
    return Reply(status, text)


def onward(cookie: str = "") -> Reply:
    """Send a browser to the pages, with its new key where it has one; the code leaves the address so."""
    return Reply(303, headers={"location": "/"} | ({"set-cookie": cookie} if cookie else {}))


def welcome(cookie: str) -> Reply:
    """Give the laptop's browser its key.

    The page itself goes on to the pages: a browser sends a strict cookie along only where a page of ours asked.
    """
    body = '<p>This browser is the laptop\'s now.</p><p><a class="button" href="/">Open the pages</a></p>'
    shown = page("Tidemark", body, '<meta http-equiv="refresh" content="0;url=/">')
    return Reply(200, shown, "text/html", {"set-cookie": cookie})


def spent_link() -> Reply:
    """Tell that the laptop's link is good no more."""
    return Reply(
        403,
        page(
            "This link is good no more",
            "<p>It is good once, for ten minutes. End the program in its terminal with Ctrl-C and start it again: it "
            "opens a new one.</p><p>If it was not you who used it, look at <b>Preferences, Devices</b> then, and remove "
            "what you don't know.</p>",
        ),
        "text/html",
    )


def refusal(here: bool, *, html: bool, encrypted: bool, known: bool) -> Reply:
    """Refuse whoever shows no good key: with the form where a person looks on, in one line elsewhere.

    Args:
        here: It is a browser of the laptop itself.
        html: A page was asked for.
        encrypted: The server speaks TLS.
        known: A key was shown that is good no more.
    """
    if not html:
        # A text in JSON: the pages' own script shows such a one to the reader when it finds the server closed to it.
        return Reply(401, json.dumps(NOT_PAIRED), "application/json", {"www-authenticate": "Pairing"})
    gone = TidemarkError("This one's key is good no more.", mend="It was removed on the laptop, or not used for long.")
    return form(here, status=401, encrypted=encrypted, error=gone if known else None)


def form(
    here: bool,
    *,
    encrypted: bool,
    code: str = "",
    name: str = "",
    error: TidemarkError | None = None,
    status: int = 200,
) -> Reply:
    """Ask for the code and a name for the device."""
    who = "browser" if here else "phone"
    about = (
        "The laptop's own browser comes in by the link that the terminal shows. Another browser is paired as a phone is."
        if here
        else "The log on the laptop opens only to phones that are paired with it."
    )
    open_words = "" if encrypted else " What you send is not encrypted: whoever listens on this network can read it."
    alert = field = ""
    if error is not None:
        alert = f'<p role="alert" id="error"><b>{escape(error.what)}</b> {escape(error.mend)}</p>'
        field = ' aria-invalid="true" aria-describedby="error"'
    shown = code if len(code) <= 20 else ""
    body = f"""<p>{about}</p>
{alert}<form method="post" action="{PAIR}" autocomplete="off">
<label for="code">Code on the laptop's screen</label>
<input id="code" name="code" value="{escape(shown)}" inputmode="numeric" autocomplete="one-time-code" maxlength="20"
 placeholder="0000 0000" required{field}>
<label for="name">Name of this {who}, for the list on the laptop</label>
<input id="name" name="name" value="{escape(name or who.capitalize())}" maxlength="{MOST_LETTERS}" required>
<button>Pair this {who}</button></form>
<p class="soft">On the laptop: Preferences, Devices, <i>Pair a phone</i>. A code is good once, for five minutes.</p>
<p class="soft">Whoever is paired sees and changes everything in this log, as on the laptop.{open_words}</p>
<p class="soft">Paired before? <a href="/">Open the pages</a></p>"""
    headers = {"www-authenticate": "Pairing"} if status == 401 else None
    return Reply(status, page(f"Pair this {who}", body), "text/html", headers)


def page(title: str, body: str, head: str = "") -> str:
    """Return a whole page in the look of the pages, without a script."""
    return f"""<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark"><title>{title}: Tidemark</title>{head}<style>{_style()}</style></head>
<body><main><p class="brand">Tidemark</p><h1>{title}</h1>{body}</main></body></html>"""


@cache
def _style() -> str:
    """Return the style in the colours of the pages, light and dark."""
    theme = tomllib.loads((Path(__file__).parent.parent / "theme.toml").read_text(encoding="utf-8"))["theme"]
    light, dark = theme["light"], theme["dark"]
    names = {
        "ground": "backgroundColor", "box": "secondaryBackgroundColor", "text": "textColor", "accent": "linkColor",
    }  # fmt: skip
    pairs = {name: (light[key], dark[key]) for name, key in names.items()}
    pairs |= {
        "on": ("#FFFFFF", dark["backgroundColor"]),
        "soft": ("#545D61", "#B5BCBF"),
        "line": ("#7C8488", "#8A9599"),
    }
    values = " ".join(f"--{name}: light-dark({one}, {other});" for name, (one, other) in pairs.items())
    return f""":root {{ color-scheme: light dark; {values} }}
* {{ box-sizing: border-box; }}
body {{ margin: 0; background: var(--ground); color: var(--text); font: 17px/1.45 {theme["font"]}; }}
main {{ max-width: 26rem; margin: 0 auto; padding: 1.25rem 1rem 3rem; overflow-wrap: anywhere; }}
.brand {{ margin: 0; color: var(--accent); font-weight: 700; }}
h1 {{ margin: 0.2rem 0 0.6rem; font-size: 1.7rem; line-height: 1.15; }}
p {{ margin: 0 0 0.8rem; }}
.soft {{ color: var(--soft); font-size: 0.95rem; }}
a {{ color: var(--accent); display: inline-block; min-height: 2.75rem; line-height: 2.75rem; }}
label {{ display: block; margin: 0.9rem 0 0.3rem; font-weight: 600; }}
input {{ width: 100%; min-height: 3rem; padding: 0.4rem 0.8rem; font: inherit; color: inherit; background: var(--box);
 border: 1px solid var(--line); border-radius: 0.6rem; }}
input::placeholder {{ color: var(--soft); opacity: 1; }}
#code {{ font-size: 1.6rem; font-weight: 700; letter-spacing: 0.08em; font-variant-numeric: tabular-nums; }}
button, .button {{ display: block; width: 100%; min-height: 3.5rem; margin: 1.2rem 0; padding: 0.4rem; border: 0; font: inherit;
 font-size: 1.2rem; font-weight: 700; text-align: center; text-decoration: none; line-height: 2.7rem; cursor: pointer;
 color: var(--on); background: var(--accent); border-radius: 0.6rem; }}
[role="alert"] {{ padding: 0.7rem 0.8rem; border: 2px solid var(--accent); border-radius: 0.6rem; }}
[role="alert"]::before {{ content: "▲ "; }}
:focus-visible {{ outline: 3px solid var(--accent); outline-offset: 2px; }}"""
