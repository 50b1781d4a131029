"""Your data in plain words: what is kept, where, who sees it, and how to correct it, take it along and delete it."""

from __future__ import annotations

import streamlit as st

from tracker.components.frame.as_typed import as_typed
from tracker.components.frame.empty import way_to
from tracker.components.frame.frame import Here
from tracker.desk.people import your_data
from tracker.desk.people.your_data import Part, YourData
from tracker.log.who import who
from tracker.wording import counted

COACH = "sets, maxes, scores, cautions, goals and how hard sessions were"
SEEN = {
    "household": (
        "Whoever opens Tidemark on this machine, and each phone that was paired with it, sees and changes everything of all "
        "members. Nobody signs in here."
    ),
    "coach": (
        f"You share your log: your coach and the owner see your {COACH}. They change nothing of it. Turn it off under "
        "Preferences, and from then on they see none of it."
    ),
    "alone": (
        "You alone. Your coach and the owner see nothing that you log: of your class they see only how many did a session. "
        "You can share it under Preferences."
    ),
}
LAW = (
    "Where the General Data Protection Regulation applies (EU 2016/679), whoever keeps the log owes you these answers: "
    "access (Article 15), correction (16), deletion (17), a copy to take along (20). Other places have laws of their own. "
    "This page is no legal advice."
)


def show(now: Here) -> None:
    """Say it of whoever is signed in, and in a household of the member on screen."""
    found = your_data.of_member(now.log, who().member_id or now.member.id)
    st.header("What is kept")
    st.caption(f"About {as_typed(found.name)}, counted just now.")
    for part in found.parts:
        st.html(f'<p class="plain"><b>{part.name}: {_amount(part)}.</b> {_sentence(part.what)}</p>')
    st.write("No e-mail address, no position, no picture, and nothing of how you use these pages.")
    st.header("Where it is")
    for words in _where(found):
        st.write(words)
    st.header("Who sees it")
    st.write(SEEN[found.seen])
    if found.seen != "household":
        st.write("Your name, groups and classes are seen by the owner and the coaches of your class either way.")
        st.write(
            "What is sore, ill or limited stays yours, whatever you share, unless you choose to tell it. A day's result "
            "or a period's report goes to whom you give it. Whoever runs the server holds the file and its copies, and "
            "could read all of it there."
        )
    st.header("Correct it, export it, delete it")
    st.write("Each set, score and max has an Edit and an Undo where it stands; the Journal finds the old ones.")
    way_to("files", "Files: export my data, or delete it for good", icon=":material/folder:")
    way_to("preferences", "Preferences: name, sharing", icon=":material/tune:")
    for words in _beyond(found):
        st.write(words)
    st.caption(LAW)


def _amount(part: Part) -> str:
    return counted(part.records, "record") if part.records else "nothing"


def _sentence(words: str) -> str:
    return f"{words[0].upper()}{words[1:]}."


def _where(found: YourData) -> list[str]:
    """Say where the log and its copies lie. Only a household is told the file."""
    if found.where:
        lies = f"In one file on this machine: `{found.where}`, with dated copies in a folder beside it."
    elif found.seen == "household":
        lies = "In the database that this machine was started with."
    else:
        lies = "On your gym's own server, in its database and the dated copies that the owner keeps."
    asked = (
        "Signing in asks your gym's provider who you are; it gets nothing of your log."
        if who().identity is not None
        else "Nothing of it is sent anywhere, and no statistics are."
    )
    return [
        lies,
        asked,
        "The page for between two sets keeps your next two weeks on the phone, and each touch until the log has it.",
    ]


def _beyond(found: YourData) -> list[str]:
    """Say what deletion does not reach."""
    elsewhere = "Exports, reports and results that you gave away or saved elsewhere are not reached by a deletion."
    if found.on_server:
        elsewhere += " Neither are the nightly dumps of the server: ask the owner how long they are kept."
    elif found.seen != "household":
        elsewhere += " Ask the owner to let go of the copies that hold you."
    return [elsewhere]
