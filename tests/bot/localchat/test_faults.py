import pytest

from bot.localchat.faults import OF_UPDATES, WHILE_WAITING, Fault, Faults, Kind


def test_the_first_that_fits_is_met_first_and_as_often_as_planned():
    faults = Faults()
    heard = []
    faults.on_plan = lambda: heard.append(len(faults.planned))
    for fault in (
        Fault(Kind.SLOW, method="getUpdates"),
        Fault(Kind.REFUSE, method="sendMessage", chat_id=501, times=2),
        Fault(Kind.FORBIDDEN, chat_id=502),
        Fault(Kind.DROP_AFTER),
    ):
        faults.plan(fault)
    assert heard == [1, 2, 3, 4]
    calls = [("sendMessage", 501)] * 2 + [("sendPhoto", 502), ("getMe", None), ("getMe", None)]
    met = [faults.next_for(*call) for call in calls]
    assert [fault and fault.kind for fault in met] == [
        Kind.REFUSE,
        Kind.REFUSE,
        Kind.FORBIDDEN,
        Kind.DROP_AFTER,
        None,
    ]
    assert [fault.kind for fault in faults.planned] == [Kind.SLOW]


@pytest.mark.parametrize("kind", Kind)
def test_a_kind_befalls_either_calls_or_updates(kind):
    def planned(method):
        faults = Faults()
        faults.plan(Fault(kind, method=method))
        return faults

    of_updates = kind in OF_UPDATES
    assert (planned(None).next_of_update(501) is not None) == of_updates
    assert (planned(None).next_for("getUpdates", None) is not None) == (not of_updates)
    assert (planned("getUpdates").next_while_waiting() is not None) == (kind in WHILE_WAITING)
    assert planned(None).next_while_waiting() is None, "a poll that waits is hit only by what names it"
