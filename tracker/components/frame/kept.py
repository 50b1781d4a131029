"""Choices that the address keeps, so that a reload and a second device show the same."""

from __future__ import annotations

from collections.abc import Callable, Mapping

import streamlit as st


def select(name: str, label: str, options: Mapping[str, str], *, default: str) -> str:
    """Choose from a list; `options` are values with their words."""
    _set(name, options, default)
    st.selectbox(label, list(options), format_func=options.__getitem__, key=_key(name), on_change=_keep, args=(name,))
    return st.session_state[_key(name)]


def segments(name: str, label: str, options: Mapping[str, str], *, default: str) -> str:
    """Choose one of a few, in one touch."""
    _set(name, options, default)
    st.segmented_control(
        label, list(options), format_func=options.__getitem__, key=_key(name), required=True, on_change=_keep, args=(name,)
    )  # fmt: skip
    return st.session_state[_key(name)]


def one_of(name: str, label: str, options: Mapping[str, str], *, default: str) -> str:
    """Choose one of several that may need more than one line."""
    _set(name, options, default)
    st.pills(
        label, list(options), format_func=options.__getitem__, key=_key(name), required=True, on_change=_keep,
        args=(name,), label_visibility="collapsed",
    )  # fmt: skip
    return st.session_state[_key(name)]


def main_one_of(name: str, label: str, main: Mapping[str, str], others: Mapping[str, str], *, default: str) -> str:
    """Choose one of a few that are asked for most, in a row as wide as the page; the others are drawn by `others_of`."""
    _set(name, {**main, **others}, default)
    part = st.session_state[_key(name)]
    if part in others:
        st.session_state[_key(name)] = None
    st.segmented_control(
        label, list(main), format_func=main.__getitem__, key=_key(name), on_change=_keep_main, args=(name, part),
        label_visibility="collapsed", width="stretch",
    )  # fmt: skip
    return part


def others_of(name: str, main: str, others: Mapping[str, str]) -> None:
    """Lead to what is seldom asked for; `main` is what is drawn now."""
    with st.container(horizontal=True, key=f"others_of_{name}"):
        for value, words in others.items():
            if value != main:
                st.button(words, key=f"{name}_{value}", type="tertiary", on_click=_go, args=(name, value))


def _go(name: str, value: str) -> None:
    st.query_params[name] = value


def _keep_main(name: str, former: str) -> None:
    st.query_params[name] = st.session_state[_key(name)] or former


def several(
    name: str, label: str, options: Mapping[str, str], *, words: Callable[[str], str] | None = None
) -> set[str]:
    """Choose none, one or several."""
    wanted = st.query_params.get(name, "").split()
    st.session_state[_key(name)] = [each for each in options if each in wanted]
    st.pills(
        label, list(options), format_func=words or options.__getitem__, key=_key(name), selection_mode="multi",
        on_change=_keep, args=(name,),
    )  # fmt: skip
    return set(st.session_state[_key(name)])


def _key(name: str) -> str:
    return f"kept_{name}"


def _set(name: str, options: Mapping[str, str], default: str) -> None:
    wanted = st.query_params.get(name, "")
    st.session_state[_key(name)] = wanted if wanted in options else default


def _keep(name: str) -> None:
    value = st.session_state[_key(name)]
    st.query_params[name] = " ".join(value) if isinstance(value, list) else value
