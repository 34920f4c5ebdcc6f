import pytest
from hypothesis import given
from hypothesis import strategies as st
from rows import each_row

from bot.messages import Action, Tap, decode, encode

taps = st.builds(
    Tap, st.integers(0, 2**52), st.integers(0, 10**6), st.sampled_from(Action), st.integers(0, 2**52)
)


@given(taps)
def test_a_tap_survives_the_way_out_and_back_in_64_bytes(tap):
    data = encode(tap)

    assert decode(data) == tap
    assert len(data.encode()) <= 64


@given(st.text(max_size=80))
def test_data_that_is_not_ours_is_refused_and_never_raises(data):
    found = decode(data)

    assert found is None or encode(found) == data or data.split(":")[0] == "1"


@each_row(
    "data",
    [
        "",
        "1:a:b:c",
        "2:1:1:a:0",
        "1:1:1:zz:0",
        "1:-1:1:a:0",
        "1:1:1:a:",
        "1:A:1:a:0",
        "1:1:1:a:0:0",
        "1" * 65,
        "1:\uff11:1:a:0",
        "1:1:1:à:0",
        "1:1000000000000:1:a:0",
        "1:1:1000000000000:a:0",
        "1:1:1:a:zzzzzzzzzzzzz",
        f"1:1:1:a:{'0' * 60}",
    ],
)
def test_forged_data_is_refused(data):
    assert decode(data) is None


def test_every_number_that_is_read_fits_a_column_of_a_database():
    tap = decode(f"1:{'z' * 12}:{'z' * 12}:pk:{'z' * 12}")

    assert tap is not None
    assert max(tap.prompt, tap.revision, tap.argument) < 2**63


def test_there_is_no_negative_row():
    with pytest.raises(ValueError, match="negative"):
        encode(Tap(-1, 0, Action.START))


def test_codes_of_actions_are_unique_and_short():
    codes = [action.value for action in Action]

    assert len(set(codes)) == len(codes)
    assert all(1 <= len(code) <= 2 for code in codes)
