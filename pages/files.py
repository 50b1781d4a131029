"""Files: import sets, export everything, back up and restore; seldom asked for: the check, and deleting a member."""

import streamlit as st

from tracker.components.files import bring, copies, custody, farewell
from tracker.components.frame import kept, long_work
from tracker.components.frame.frame import here
from tracker.components.frame.signed_in import runs_it

MAIN = {
    "import": ":material/upload: Import",
    "export": ":material/download: Export",
    "backup": ":material/save: Back up",
}
OTHERS = {"check": ":material/fact_check: Check the log", "delete": ":material/delete: Delete a member"}
if not runs_it():  # the log as a whole is the owner's
    del MAIN["backup"], OTHERS["check"]
now = here()
st.title("Files")
part = kept.main_one_of("part", "What to do", MAIN, OTHERS, default="import")
if long_work.running():
    long_work.show()
elif part == "import":
    bring.show(now)
elif part == "export":
    custody.export_everything(now) if runs_it() else farewell.take_along(now)
elif part == "backup":
    custody.save_backup(now)
    copies.show(now)
elif part == "check":
    custody.check(now)
else:
    farewell.show(now)
kept.others_of("part", part, OTHERS)
