"""A touch is carried out whole, however soon the next one comes.

Streamlit looks for a newer request whenever the state of a page is read, also before and within the callbacks of a touch.
One that came meanwhile ended them there: a touch was not carried out at all, or half, and nobody was told. Between the
callbacks and the page it looks once more by itself, so nothing is held up by waiting until then.

It also looks after a field's new value was noted as told to the browser and before it is told, so that the browser went
on with the former one: what is noted is sent first here.
"""

from __future__ import annotations

from functools import wraps
from typing import Any

from streamlit.proto.ForwardMsg_pb2 import ForwardMsg
from streamlit.runtime.scriptrunner.script_runner import ScriptRunner, ScriptRunnerEvent
from streamlit.runtime.state.safe_session_state import SafeSessionState


def keep_whole() -> None:
    """Let the callbacks of each touch run to their end before a newer request is looked for; once for a process."""
    former = SafeSessionState.on_script_will_rerun
    if hasattr(former, "__wrapped__"):
        return

    @wraps(former)
    def whole(self: SafeSessionState, *args: Any, **options: Any) -> None:
        looks = self._yield_callback
        object.__setattr__(self, "_yield_callback", _later)  # set plainly, it would be a value of the page's state
        try:
            former(self, *args, **options)
        finally:
            object.__setattr__(self, "_yield_callback", looks)

    SafeSessionState.on_script_will_rerun = whole
    ScriptRunner._enqueue_forward_msg = _sent_first  # pyright: ignore[reportPrivateUsage]


def _sent_first(self: ScriptRunner, msg: ForwardMsg) -> None:
    self.on_event.send(self, event=ScriptRunnerEvent.ENQUEUE_FORWARD_MSG, forward_msg=msg)
    self._maybe_handle_execution_control_request()  # pyright: ignore[reportPrivateUsage]


def _later() -> None:
    """Look for nothing now."""
