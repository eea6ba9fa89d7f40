"""Ctrl-C: the first asks the search to stop, the second quits, and the old handler returns."""

from __future__ import annotations

import signal

import pytest

from solver.cli.interrupt import stop_on_interrupt


def test_nothing_is_asked_before_the_first() -> None:
    with stop_on_interrupt() as stop:
        assert not stop()


def test_the_first_asks_to_stop(capfd: pytest.CaptureFixture[str]) -> None:
    with stop_on_interrupt() as stop:
        signal.raise_signal(signal.SIGINT)
        assert stop()
    assert "the best layouts so far are kept" in capfd.readouterr().err


def test_the_second_quits() -> None:
    with stop_on_interrupt():
        signal.raise_signal(signal.SIGINT)
        with pytest.raises(KeyboardInterrupt):
            signal.raise_signal(signal.SIGINT)


def test_the_handler_before_comes_back() -> None:
    before = signal.getsignal(signal.SIGINT)
    with stop_on_interrupt():
        assert signal.getsignal(signal.SIGINT) is not before
    assert signal.getsignal(signal.SIGINT) is before
