"""The first page at both sizes: what is largest on it, nothing heavy; no page wider than the screen."""

import pytest
from faults import WIDE
from filled import filled
from served import PHONE, TABLET, Served, take

pytestmark = pytest.mark.peer("chromium")


@pytest.fixture(scope="module")
def served(browser, tmp_path_factory):
    """A shop with one order, the same for all tests here: the last of them writes down more."""
    shop = Served(tmp_path_factory.mktemp("first") / "shop")
    shop.open()
    try:
        page = browser.new_page(viewport=TABLET)
        take(page, shop, "jetty")
        page.context.close()
        yield shop
    finally:
        shop.close()


LARGEST = """() => [...document.querySelectorAll("main button, main .button, main summary")]
    .filter((each) => each.checkVisibility())
    .map((each) => [each.getBoundingClientRect(), each.textContent.trim()])
    .sort(([a], [b]) => b.width * b.height - a.width * a.height)[0][1]"""


def test_the_next_order_is_the_largest_thing_on_the_list_at_either_size(page, served):
    for size in (TABLET, PHONE):
        page.set_viewport_size(size)
        page.goto(served.url)
        assert page.evaluate(LARGEST) == "A new order"
        page.get_by_text("A new order").click()
        assert page.evaluate(LARGEST) == "Begin this order"


def test_the_first_page_is_light_and_complete_without_the_network(page, served):
    sizes = {}
    context = page.context.browser.new_context(viewport=TABLET)
    fresh = context.new_page()
    session = context.new_cdp_session(fresh)
    session.send("Network.enable")
    session.on(
        "Network.loadingFinished",
        lambda done: sizes.__setitem__(done["requestId"], done["encodedDataLength"]),
    )
    fresh.goto(served.url)
    fresh.evaluate("document.fonts.ready")
    fresh.wait_for_timeout(1500)
    assert fresh.evaluate("document.fonts.check('16px \"Shop Sans\"')")
    assert 0 < sum(sizes.values()) < 150_000
    context.close()


def test_a_name_of_one_long_word_makes_no_page_wider_than_a_phone(page, served):
    page.set_viewport_size(PHONE)
    page.goto(served.url)
    page.get_by_text("A new order").click()
    filled(page, new_name="W" * 60, new_number="L-1")
    page.get_by_role("button", name="Begin this order").click()
    page.wait_for_url("**/orders/L-1")
    assert not page.evaluate(WIDE)
    page.goto(f"{served.url}/customers")
    filled(page, k_mark="K-7", k_name="W" * 60)
    page.get_by_role("button", name="Keep it").click()
    page.wait_for_url("**/customers/K-7")
    assert not page.evaluate(WIDE)
    page.goto(served.url)
    assert not page.evaluate(WIDE)
