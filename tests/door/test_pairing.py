"""Codes and keys: good once, for minutes, for ten tries; kept as hashes; gone at once when they are removed."""

from __future__ import annotations

import contextlib
import threading

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tracker.door.pairing import (
    DIGITS,
    LAPSES,
    MOST_LETTERS,
    MOST_WRONG,
    NoCodeError,
    Pairing,
    WrongCodeError,
    code_typed,
    device_name,
)
from tracker.door.store import DevicesUnreadableError
from tracker.errors import BadInputError


def wrong(text: str) -> str:
    """Another code than this one."""
    return f"{(int(text) + 1) % 10**DIGITS:0{DIGITS}d}"


def paired(pairing: Pairing, name: str = "Wren's phone") -> str:
    return pairing.pair("phone", pairing.new_code("phone").text, name)


def test_a_code_pairs_one_phone_and_only_one(pairing):
    code = pairing.new_code("phone")
    device = pairing.device(pairing.pair("phone", code.text, " Wren's  phone "))
    assert device is not None
    assert (device.name, device.kind) == ("Wren's phone", "phone")
    assert [each.id for each in pairing.devices()] == [device.id]
    with pytest.raises(NoCodeError):
        pairing.pair("phone", code.text, "A second phone")
    assert len(pairing.devices()) == 1
    assert pairing.code_state().device == "Wren's phone"


def test_a_code_is_typed_as_it_is_shown_or_without_its_gap(pairing):
    code = pairing.new_code("phone")
    assert code.shown.replace(" ", "") == code.text
    assert pairing.device(pairing.pair("phone", f" {code.shown} ", "Phone"))


def test_a_code_is_good_for_five_minutes(pairing, clock):
    code = pairing.new_code("phone")
    clock.move(minutes=4, seconds=59)
    assert pairing.code_state().state == "good"
    clock.move(seconds=1)
    assert pairing.code_state().state == "late"
    with pytest.raises(NoCodeError):
        pairing.pair("phone", code.text, "Phone")
    assert pairing.devices() == ()


def test_a_clock_that_is_set_back_gives_a_code_no_longer_life(pairing, clock):
    code = pairing.new_code("phone")
    clock.move(hours=-2)
    with pytest.raises(NoCodeError):
        pairing.pair("phone", code.text, "Phone")


def test_a_new_code_ends_the_former_one(pairing):
    former, new = pairing.new_code("phone"), pairing.new_code("phone")
    if former.text != new.text:  # once in a hundred million
        with pytest.raises(WrongCodeError):
            pairing.pair("phone", former.text, "Phone")
    assert pairing.pair("phone", new.text, "Phone")


def test_a_code_that_is_put_away_is_good_no_more(pairing):
    code = pairing.new_code("phone")
    pairing.end_code("phone")
    assert pairing.code_state() is None
    with pytest.raises(NoCodeError):
        pairing.pair("phone", code.text, "Phone")


def test_ten_wrong_codes_end_the_pairing_and_the_right_one_comes_too_late(pairing):
    code = pairing.new_code("phone")
    for left in range(MOST_WRONG - 1, 0, -1):
        with pytest.raises(WrongCodeError, match=f"{left} tries are left" if left > 1 else "one try is left"):
            pairing.pair("phone", wrong(code.text), "Phone")
    with pytest.raises(NoCodeError):
        pairing.pair("phone", wrong(code.text), "Phone")
    assert pairing.code_state().state == "ended"
    with pytest.raises(NoCodeError):
        pairing.pair("phone", code.text, "Phone")
    assert pairing.pair("phone", pairing.new_code("phone").text, "Phone")  # the laptop may always make a new one


def test_the_tenth_try_may_still_be_the_right_one(pairing):
    code = pairing.new_code("phone")
    for _ in range(MOST_WRONG - 1):
        with pytest.raises(WrongCodeError):
            pairing.pair("phone", wrong(code.text), "Phone")
    assert pairing.pair("phone", code.text, "Phone")


def test_guesses_side_by_side_are_counted_each(opened):
    """Forty at once, from four processes' worth of connections: no more than ten were looked at."""
    first = opened()
    guess = wrong(first.new_code("phone").text)
    answers: list[type[BaseException]] = []

    def try_ten(pairing: Pairing) -> None:
        for _ in range(10):
            try:
                pairing.pair("phone", guess, "Phone")
            except (WrongCodeError, NoCodeError) as err:
                answers.append(type(err))

    threads = [threading.Thread(target=try_ten, args=(opened(),)) for _ in range(4)]
    for each in threads:
        each.start()
    for each in threads:
        each.join()
    assert (answers.count(WrongCodeError), answers.count(NoCodeError)) == (MOST_WRONG - 1, 31)
    with first.store.reading() as connection:
        assert connection.execute("SELECT wrong FROM codes").fetchone() == (MOST_WRONG,)


@pytest.mark.parametrize("text", ["", "1234567", "123456789", "1234567x", "1234 567١", "' OR 1=1 --", "0x123456"])
def test_what_can_be_no_code_is_told_and_costs_no_try(pairing, text):
    pairing.new_code("phone")
    with pytest.raises(BadInputError, match="8 digits"):
        pairing.pair("phone", text, "Phone")
    with pairing.store.reading() as connection:
        assert connection.execute("SELECT wrong FROM codes").fetchone() == (0,)


@pytest.mark.parametrize("name", ["", "  ", "x" * (MOST_LETTERS + 1), "a\u202eb", "a\x00b"])
def test_a_name_that_can_not_be_costs_no_try_and_spends_no_code(pairing, name):
    code = pairing.new_code("phone")
    with pytest.raises(BadInputError, match="name"):
        pairing.pair("phone", code.text, name)
    assert pairing.pair("phone", code.text, "Phone")


@given(st.text())
def test_any_text_is_a_code_or_bad_input(text):
    for reader, most in ((code_typed, DIGITS), (device_name, MOST_LETTERS)):
        with contextlib.suppress(BadInputError):
            assert 1 <= len(reader(text)) <= most


def test_the_laptops_link_is_good_once_and_nobody_spoils_it_by_trying(pairing, clock):
    link = pairing.new_code("laptop")
    for _ in range(3 * MOST_WRONG):
        with pytest.raises(NoCodeError):
            pairing.pair("laptop", "guess", "Laptop")
    assert pairing.device(pairing.pair("laptop", link.text, "Laptop")).kind == "laptop"
    with pytest.raises(NoCodeError):
        pairing.pair("laptop", link.text, "Laptop")
    late = pairing.new_code("laptop")
    clock.move(minutes=10)
    with pytest.raises(NoCodeError):
        pairing.pair("laptop", late.text, "Laptop")


def test_a_phones_code_is_no_laptops_link_nor_the_other_way_round(pairing):
    code, link = pairing.new_code("phone"), pairing.new_code("laptop")
    with pytest.raises(NoCodeError):
        pairing.pair("laptop", code.text, "Laptop")
    with pytest.raises(BadInputError):
        pairing.pair("phone", link.text, "Phone")
    assert pairing.devices() == ()


def test_a_key_holds_in_another_process_and_after_a_restart_until_it_is_removed_anywhere(opened):
    first, second = opened(), opened()
    key = paired(first)
    device = second.device(key)
    assert device is not None
    first.store.close()
    assert opened().device(key) == device
    assert second.remove(device.id) == "Wren's phone"
    for each in (first, second, opened()):
        assert each.device(key) is None
        assert each.still(device.id) is None
    with pytest.raises(BadInputError, match="removed before"):
        first.remove(device.id)


def test_the_name_of_a_removed_device_is_nowhere_in_the_file(pairing, tmp_path):
    device = pairing.device(paired(pairing, "Quillon's phone"))
    pairing.remove(device.id)
    pairing.store.close()
    assert b"Quillon" not in (tmp_path / "log.db.devices").read_bytes()
    assert pairing.code_state().state == "used"


def test_one_removal_leaves_the_others(pairing):
    keep, drop = paired(pairing, "One"), paired(pairing, "Two")
    pairing.remove(pairing.device(drop).id)
    assert pairing.device(keep).name == "One"
    assert pairing.device(drop) is None


def test_a_forged_key_is_refused(pairing, opened, tmp_path):
    key, other = paired(pairing, "One"), paired(pairing, "Two")
    device_id, secret, signature = key.split(".")
    other_id, other_secret, other_signature = other.split(".")
    forged = [
        "", ".", "..", f"{device_id}.{secret}", f"{device_id}.{secret}.", f"{other_id}.{secret}.{signature}",
        f"{device_id}.{other_secret}.{signature}", f"{device_id}.{secret}.{other_signature}", key[:-1], key + "A",
        key.upper(), key + "é", "x" * 100_000, f"{device_id}.{secret}.{signature}\x00",
    ]  # fmt: skip
    for each in forged:
        assert pairing.device(each) is None, each[:80]
    assert pairing.device(key).name == "One"  # else nothing was shown


def test_a_key_that_is_well_signed_but_of_nobody_is_refused(pairing):
    """As if the secret were known: the key's own 256 bits are still missing."""
    from tracker.door.pairing import _signer

    device = pairing.device(paired(pairing))
    with pairing.store.reading() as connection:
        signer = _signer(connection)
    for text in (f"{device.id}.", f"{device.id}.guess", "nobody.guess"):
        assert pairing.device(signer.sign(text).decode()) is None


def test_a_key_of_another_log_is_refused(pairing, tmp_path, clock):
    from tracker.door.store import Store

    other = Pairing(Store(tmp_path / "other.db.devices"), clock=clock)
    assert other.cookie != pairing.cookie  # cookies tell no ports apart, so that two logs would overwrite each other's
    assert pairing.device(paired(other)) is None
    other.store.close()


def test_whoever_reads_the_file_can_show_no_key(pairing, tmp_path):
    code = pairing.new_code("phone")
    key = pairing.pair("phone", code.text, "Phone")
    open_code = pairing.new_code("phone")
    pairing.store.close()
    (file,) = tmp_path.glob("*.devices*")
    assert file.stat().st_mode & 0o777 == 0o600
    for secret in (key.split(".")[1], code.text, open_code.text):
        assert secret.encode() not in file.read_bytes()


def test_a_file_that_others_could_read_is_closed_to_them(opened, tmp_path):
    path = tmp_path / "log.db.devices"
    path.touch(mode=0o666)
    path.chmod(0o666)
    paired(opened())
    assert path.stat().st_mode & 0o777 == 0o600


def test_a_key_that_once_went_in_the_open_is_not_taken_over_tls_nor_the_other_way_round(opened):
    plain, encrypted = opened(), opened(encrypted=True)
    in_the_open, sealed = paired(plain), paired(encrypted)
    assert plain.device(in_the_open)
    assert encrypted.device(sealed)
    assert encrypted.device(in_the_open) is None
    assert plain.device(sealed) is None
    assert encrypted.cookie == f"__Host-{plain.cookie}"


def test_a_key_lapses_when_it_is_not_shown_for_long(pairing, clock):
    key = paired(pairing)
    for _ in range(3):
        clock.now += LAPSES - clock.now.resolution
        device = pairing.device(key)
        assert device is not None
        pairing.see(device)
    clock.now += LAPSES
    assert pairing.device(key) is None


def test_when_a_device_was_seen_is_written_once_a_minute_at_most(pairing, clock):
    key = paired(pairing)
    made = clock.now
    clock.move(seconds=59)
    pairing.see(pairing.device(key))
    assert pairing.device(key).seen_at == made
    clock.move(seconds=1)
    pairing.see(pairing.device(key))
    assert pairing.device(key).seen_at == clock.now
    assert pairing.device(key).paired_at == made


def test_deleting_the_file_ends_every_pairing_even_in_a_server_that_has_it_open(pairing, tmp_path):
    key, code = paired(pairing), pairing.new_code("phone")
    (tmp_path / "log.db.devices").unlink()
    assert pairing.device(key) is None
    with pytest.raises(NoCodeError):
        pairing.pair("phone", code.text, "Phone")
    assert pairing.devices() == ()


@pytest.mark.parametrize("damage", ["text", "newer", "emptied facts"])
def test_a_damaged_file_lets_nobody_in_and_says_how_it_is_mended(opened, tmp_path, damage):
    first = opened()
    key = paired(first)
    with first.store.writing() as connection:
        if damage == "emptied facts":
            connection.execute("DELETE FROM facts")
    if damage == "newer":
        with first.store.reading() as connection:
            connection.execute("PRAGMA user_version=99")
    first.store.close()
    if damage == "text":
        (tmp_path / "log.db.devices").write_text("notes " * 5000)
    for act in (lambda each: each.device(key), lambda each: each.new_code("phone")):
        with pytest.raises(DevicesUnreadableError, match="delete this file"):
            act(opened())
