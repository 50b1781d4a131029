"""The page that walks a phone through trusting a household's authority once, and how to take it off again.

It is served in the open on a port of its own, for a phone can't come in by the encrypted one before. It holds nothing but
the authority's certificate, which is no secret; that it is the right one the person sees by its fingerprint.
"""

from __future__ import annotations

import threading
from html import escape
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer

from tracker.door.authority import Ours
from tracker.door.doorway import page

FILE = "/tidemark-home.crt"
SLOW_S = 10.0  # a stranger who sends nothing is let go

# What phones call these places is from memory, and differs between makers and years.
WAYS: tuple[tuple[str, tuple[tuple[str, tuple[str, ...]], ...]], ...] = (
    (
        "iPhone or iPad",
        (
            ("Touch the button above, in the browser that came with the phone, and allow the download.", ("This profile", "Allow")),
            ("Open Settings. At the top stands Profile Downloaded: touch it, then Install.", ("Settings", "Profile Downloaded", "Install")),
            ("Settings, General, About, at the very bottom Certificate Trust Settings: switch Tidemark at home on.", ("Certificate Trust Settings", "Tidemark at home  ●")),
        ),
    ),
    (
        "Android phone",
        (
            ("Touch the button above. The file goes to Downloads.", ("tidemark-home.crt", "Downloads")),
            ("Open Settings and search for CA certificate: Security, Encryption and credentials, Install a certificate, CA certificate.", ("Security", "Install a certificate", "CA certificate")),
            ("Read the warning, touch Install anyway, and choose tidemark-home.crt. The phone wants a screen lock, and keeps a notice that a certificate was added.", ("Install anyway", "tidemark-home.crt")),
        ),
    ),
)  # fmt: skip
OFF = (
    ("iPhone or iPad", "Settings, General, VPN and Device Management, Tidemark at home, Remove Profile."),
    (
        "Android phone",
        "Settings, search for User credentials or Trusted credentials, the part User: Tidemark at home, Remove.",
    ),
)


def drawing(rows: tuple[str, ...], said: str) -> str:
    """Draw a phone with what is to be touched on it, the last of the rows marked; nothing of it is anybody's screen."""
    lines = "".join(
        f'<rect x="16" y="{34 + 38 * at}" width="208" height="30" rx="7" fill="{"var(--accent)" if at == len(rows) - 1 else "none"}" '
        f'stroke="currentColor"/><text x="26" y="{54 + 38 * at}" font-size="13.5" fill="{"var(--on)" if at == len(rows) - 1 else "currentColor"}">'
        f"{escape(row)}</text>"
        for at, row in enumerate(rows)
    )
    tall = 50 + 38 * len(rows)
    return (
        f'<svg viewBox="0 0 240 {tall}" role="img" aria-label="{escape(said)}" style="max-width:15rem;width:100%">'
        f'<rect x="2" y="2" width="236" height="{tall - 4}" rx="20" fill="none" stroke="currentColor" stroke-width="2.5"/>'
        f'<path d="M96 17h48" stroke="currentColor" stroke-width="3" stroke-linecap="round"/>{lines}</svg>'
    )


def walk(ours: Ours, origin: str) -> str:
    """Return the page."""
    links = "".join(f'<li><a href="#way{at}">{escape(kind)}</a></li>' for at, (kind, _) in enumerate(WAYS))
    ways = "".join(
        f'<h2 id="way{at}">{escape(kind)}</h2><ol>'
        + "".join(f"<li><p>{escape(words)}</p>{drawing(rows, f'Touch: {rows[-1]}')}</li>" for words, rows in steps)
        + "</ol>"
        for at, (kind, steps) in enumerate(WAYS)
    )
    off = "".join(f"<li><b>{escape(kind)}:</b> {escape(words)}</li>" for kind, words in OFF)
    body = f"""<p>So that nobody in this network reads along, and the day page opens without a connection, this phone trusts the
laptop's own authority, once. It is for a household only: a gym's server has a public certificate, and wants none of this.</p>
<p><a class="button" href="{FILE}">Get the certificate</a></p>
<p>Compare before you trust it. On the laptop's screen stands the same:</p><p><code>{ours.fingerprint}</code></p>
<p><b>Where it differs, somebody stands between: don't go on.</b></p>
<ul class="ways">{links}</ul><p class="soft">What these places are called differs between phones and years.</p>
{ways}
<h2>Then</h2><p><a class="button" href="{escape(origin)}">Open Tidemark</a></p>
<p class="soft">The authority holds for this machine's names and for private addresses alone, and can make no other one. Chromium
keeps to that; of other browsers nobody here has tried it. So take it off once you no longer need it.</p>
<h2>How to take it off again</h2><ul>{off}</ul>
<p class="soft">On the laptop, delete the file that ends in .authority.pem beside the log: the next start makes another one.</p>"""
    return page(
        "Trust this laptop, once",
        body,
        "<style>code { display: block; max-width: 20ch; font-size: 1.25rem; line-height: 1.6; } "
        ".ways { display: flex; flex-wrap: wrap; gap: 0 1.5rem; list-style: none; padding: 0; margin: 0; } .ways li { margin: 0; }"
        " li { margin-bottom: 1rem; } ol, ul { padding-left: 1.2rem; }</style>",
    )


class _Handler(BaseHTTPRequestHandler):
    timeout = SLOW_S
    ours: Ours
    origin: str

    def do_GET(self) -> None:  # the base class calls it so
        if self.path == FILE:
            self._say(200, "application/x-x509-ca-cert", self.ours.authority)
        elif self.path == "/":
            self._say(200, "text/html; charset=utf-8", walk(self.ours, self.origin).encode())
        else:
            self._say(404, "text/plain; charset=utf-8", b"There is only the page that this phone begins with: /")

    def _say(self, status: int, kind: str, body: bytes) -> None:
        self.send_response(status)
        policy = "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; frame-ancestors 'none'"
        for name, value in (
            ("content-type", kind), ("content-length", str(len(body))), ("cache-control", "no-store"),
            ("content-security-policy", policy), ("x-content-type-options", "nosniff"), ("connection", "close"),
        ):  # fmt: skip
            self.send_header(name, value)
        self.end_headers()
        self.wfile.write(body)

    def version_string(self) -> str:
        return "Tidemark"

    def log_message(self, format: str, *args: object) -> None:  # noqa: A002  # the base class names it so
        """Say nothing in the terminal."""


class _Server(ThreadingHTTPServer):
    daemon_threads = True


def serve_trust(address: str, port: int, ours: Ours, origin: str) -> _Server:
    """Serve the page beside the log's until the process ends.

    Raises:
        OSError: if the port can't be listened on.
    """
    server = _Server((address, port), type("Here", (_Handler,), {"ours": ours, "origin": origin}))
    threading.Thread(target=server.serve_forever, daemon=True).start()
    return server
