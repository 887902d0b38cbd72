"""Work beside the server: asked, told, cancelled."""

import asyncio
from pathlib import Path

import pytest

from panewright.errors import OrderError
from panewright.web.workers import Workers

TEXT = (Path(__file__).parents[2] / "examples" / "jetty.toml").read_text("utf-8")


def test_a_worker_in_another_process_answers_and_tells_mistakes():
    async def ask():
        workers = Workers(1)
        try:
            await workers.warm()
            with pytest.raises(OrderError):
                await workers.ask("order_text", b"\xff\xff")
            return await workers.ask("order_text", b"[order]\n")
        finally:
            workers.end()

    assert asyncio.run(ask()) == "[order]\n"


def test_cancelled_work_ends_and_the_next_is_done():
    async def ask():
        workers = Workers(1)
        try:
            await workers.warm()
            long = asyncio.ensure_future(workers.ask("face", "regular"))
            await asyncio.sleep(0.05)
            long.cancel()
            with pytest.raises(asyncio.CancelledError):
                await long
            return await workers.ask("order_text", b"[load]\n")
        finally:
            workers.end()

    assert asyncio.run(ask()) == "[load]\n"


def test_a_worker_tells_how_far_it_is():
    told = []

    async def ask():
        workers = Workers(1)
        try:
            return await workers.ask("papers", TEXT, "jetty.toml", told=told.append)
        finally:
            workers.end()

    assert len(asyncio.run(ask())) > 5
    assert told == sorted(told)
    assert told[0] < 10
    assert 90 <= told[-1] <= 100
