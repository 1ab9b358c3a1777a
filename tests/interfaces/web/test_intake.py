"""Intake by touch: a complaint of three conditions takes at most 25 touches from *New job* to the first check."""

import re
from collections.abc import Callable

from playwright.sync_api import FilePayload, Page, expect

MOST = 25
"""The requirement: touches from *New job* to the first check."""


def test_three_conditions_reach_the_first_check_in_at_most_25_touches(open_page: Callable[..., Page]) -> None:
    page = open_page("/")
    touches = 0

    def touch(name: str | re.Pattern[str], role: str = "button") -> None:
        nonlocal touches
        page.get_by_role(role, name=name).click()  # pyright: ignore[reportArgumentType]  # a role of the test
        touches += 1

    touch("New job by touch", "link")
    page.wait_for_url(re.compile("/new$"))
    page.wait_for_function("() => window.did_handshake === true")
    touch(re.compile("1970s half-ton pickup"), "radio")
    for condition, needle in (("idle", "half"), ("highway", "half"), ("hill", "red")):
        touch(re.compile(f"^{condition}$"))
        touch(f"Needle, {condition}: {needle}")
        face = page.get_by_role("group", name=f"Needle, {condition}")
        expect(face.locator("svg .needle")).to_have_count(1)
    touch("A/C on, idle")
    touch("Level, cold: low")
    touch("Coolant: none lost")
    touch(re.compile("^thermostat"))
    touch("First causes and first check")
    page.wait_for_url(re.compile(r"/job/\d+/causes"))
    expect(page.get_by_text(re.compile("Do this first|Next check|Check next")).first).to_be_visible()
    assert touches <= MOST


def test_whoever_forgets_the_vehicle_is_told_and_loses_nothing(open_page: Callable[..., Page]) -> None:
    page = open_page("/new")
    page.get_by_role("button", name=re.compile("^hill$")).click()
    page.get_by_label("grade, hill").fill("8 %")
    page.get_by_role("button", name="First causes and first check").click()
    expect(page.get_by_role("alert").filter(has_text="what it is most like")).to_be_visible()
    expect(page.get_by_label("grade, hill")).to_have_value("8 %")


def test_the_level_and_the_loss_are_six_ticks_and_a_figure_says_more_than_the_needle(
    open_page: Callable[..., Page],
) -> None:
    page = open_page("/new")
    ticks = page.locator(".intake-ticks button")
    expect(ticks).to_have_count(6)
    page.get_by_role("radio", name=re.compile("1970s half-ton pickup")).click()
    page.get_by_role("button", name=re.compile("^hill$")).click()
    page.get_by_role("button", name="Needle, hill: red").click()
    page.get_by_label("Figure of the gauge, hill").fill("235")
    page.get_by_role("button", name="Level, cold: low").click()
    page.get_by_role("button", name="Coolant: drips or a wet trail").click()
    page.get_by_role("button", name="First causes and first check").click()
    page.wait_for_url(re.compile(r"/job/\d+/causes"))
    made = page.get_by_label("checks made")
    expect(made).to_contain_text("level in the radiator, cold: low")
    expect(made).to_contain_text("how it loses coolant: drips or a wet trail")
    page.goto(page.url.replace("/causes", "/complaint"))
    expect(page.locator("#f-reading-0-gauge")).to_have_value("235")


def test_a_reload_loses_nothing_and_other_units_turn_what_was_typed(open_page: Callable[..., Page]) -> None:
    page = open_page("/new")
    page.get_by_role("radio", name=re.compile("1970s half-ton pickup")).click()
    page.get_by_role("button", name=re.compile("^hill$")).click()
    page.get_by_label("air outside, hill").fill("92 F")
    page.get_by_role("button", name=re.compile("^idle$")).click()
    expect(page.get_by_label("air outside, hill")).to_have_value("92 F")
    page.locator("#new-customer").fill("Hollow Lane Orchard")
    page.get_by_role("button", name="Units: °C, mph, inches").click()
    expect(page.get_by_label("air outside, hill")).to_have_value("33 C")
    expect(page.get_by_label("speed, hill")).to_have_value("45 mph")
    page.get_by_role("button", name="A/C on, hill").click()
    page.get_by_role("button", name="Needle, hill: red").click()
    page.wait_for_function("() => (sessionStorage.getItem('toptank:new') || '').includes('red')")
    page.reload()
    expect(page.locator("#new-customer")).to_have_value("Hollow Lane Orchard")
    expect(page.get_by_label("air outside, hill")).to_have_value("33 C")
    expect(page.get_by_role("button", name="Needle, hill: red")).to_have_attribute("aria-pressed", "true")
    expect(page.get_by_role("button", name="A/C on, hill")).to_have_attribute("aria-pressed", "true")
    expect(page.get_by_role("radio", name=re.compile("1970s half-ton pickup"))).to_have_attribute(
        "aria-checked", "true"
    )
    page.get_by_role("radio", name=re.compile("farm tractor")).click()
    expect(page.get_by_role("button", name="A/C on, hill")).to_be_hidden()


def test_a_photo_that_is_taken_at_intake_is_kept_with_the_job(open_page: Callable[..., Page]) -> None:
    page = open_page("/new")
    page.get_by_role("radio", name=re.compile("1970s half-ton pickup")).click()
    photo: FilePayload = {"name": "plate.png", "mimeType": "image/png", "buffer": b"\x89PNG\r\n\x1a\n" + bytes(40)}
    page.get_by_label("Photos: plate, odometer, what leaks").set_input_files([photo])
    page.get_by_role("button", name="First causes and first check").click()
    page.wait_for_url(re.compile(r"/job/\d+/causes"))
    page.goto(re.sub(r"/causes.*", "/record", page.url))
    expect(page.get_by_role("link", name="plate.png")).to_be_visible()
    expect(page.get_by_label("Take a photo")).to_have_attribute("capture", "environment")


def test_a_file_that_is_too_large_for_a_photo_is_told_at_intake_and_the_job_is_open_all_the_same(
    open_page: Callable[..., Page],
) -> None:
    page = open_page("/new")
    page.get_by_role("radio", name=re.compile("1970s half-ton pickup")).click()
    large = "Object.defineProperty(File.prototype, 'size', { get: () => 33 * 1048576 })"  # nothing so large is sent
    page.evaluate(large)
    photo: FilePayload = {"name": "odometer.jpg", "mimeType": "image/jpeg", "buffer": b"\xff\xd8\xff" + bytes(40)}
    page.get_by_label("Photos: plate, odometer, what leaks").set_input_files([photo])
    page.get_by_role("button", name="First causes and first check").click()
    told = page.get_by_role("alert").filter(has_text="is open, without these photos: odometer.jpg: larger than 32 MiB")
    expect(told).to_be_visible()
    page.get_by_role("link", name="Go on").click()
    page.wait_for_url(re.compile(r"/job/\d+/causes"))


def test_photos_that_do_not_come_through_are_told_and_a_second_press_opens_no_second_job(
    open_page: Callable[..., Page],
) -> None:
    page = open_page("/new")
    page.get_by_role("radio", name=re.compile("1970s half-ton pickup")).click()
    page.evaluate("() => { window.toptank.sendPhotos = async () => ['plate.jpg: the network was lost'] }")
    press = page.get_by_role("button", name="First causes and first check")
    press.click()
    told = page.get_by_role("alert").filter(has_text="is open, without these photos: plate.jpg: the network was lost")
    expect(told).to_be_visible()
    number = re.findall(r"Job (\d+) is open", told.inner_text())[0]
    page.evaluate("() => { window.toptank.sendPhotos = async () => [] }")
    press.click()
    page.wait_for_url(re.compile(r"/job/\d+/causes"))
    assert f"/job/{number}/causes" in page.url
