"""Wrong tries are counted by the address they come from."""

from server.tries import Tries


class Clock:
    now = 0.0

    def __call__(self):
        return self.now


def test_so_many_wrong_tries_and_then_a_wait():
    clock = Clock()
    tries = Tries(3, 10, clock)
    assert [tries.begin("192.168.1.20") for _ in range(4)] == [True, True, True, False]
    assert tries.begin("192.168.1.21"), "another device"
    clock.now = 599.0
    assert not tries.begin("192.168.1.20")
    clock.now = 601.0
    assert tries.begin("192.168.1.20")


def test_right_ones_do_not_count():
    tries = Tries(2, 10, Clock())
    for _ in range(9):
        assert tries.begin("192.168.1.20")
        tries.right("192.168.1.20")
    assert tries.begin("192.168.1.20") and tries.begin("192.168.1.20") and not tries.begin("192.168.1.20")


def test_one_device_has_one_count_whatever_its_address_looks_like():
    """RFC 4291: the last 64 bits are the device's own choice; ::ffff:a.b.c.d is a.b.c.d (section 2.5.5.2)."""
    tries = Tries(1, 10, Clock())
    assert tries.begin("2001:db8:0:7::1") and not tries.begin("2001:db8:0:7:ffff::9")
    assert tries.begin("2001:db8:0:8::1")
    assert tries.begin("10.0.0.1") and not tries.begin("::ffff:10.0.0.1")
    assert tries.begin("") and not tries.begin("")
