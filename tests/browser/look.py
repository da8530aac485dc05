# SPDX-License-Identifier: MIT
"""The pages of the program in a headless browser. Usage: look.py PROGRAM EXAMPLES FOLDER_FOR_PICTURES"""

import base64
import json
import re
import subprocess
import sys
from pathlib import Path

import axe_core_python
from selenium import webdriver
from selenium.webdriver.chrome.options import Options
from selenium.webdriver.chrome.service import Service

PAPER = {"letter": (8.5, 11.0), "a4": (8.27, 11.69)}  # inches: ANSI/ASME Y14.1 size A, ISO 216
MOST_SHEETS = {"even": 6, "driven": 8, "caught": 8, "compared": 3, "sheet": 2, "found": 2}  # a page is not a book
RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa"]
AXE = (Path(axe_core_python.__file__).parent / "axe.min.js").read_text()

failures = []


def expect(true, what):
    if not true:
        failures.append(what)
        print("FAILED:", what)


def make_pages(program, examples, folder):
    """Page name -> file; the exit code 1 only says that a bar is not even."""
    ask = {
        "even": [["equal_hoses.toml"], []],
        "driven": [["pump_and_tank_bar.toml"], ["--units", "metric"]],
        "caught": [["short_hoses.toml"], ["--catch", str(examples / "catch_day.csv"), "--gauge", "39 psi"]],
        "compared": [["equal_hoses.toml", "short_hoses.toml"], []],
        "sheet": [["equal_hoses.toml"], []],
        "found": [["equal_hoses.toml", "catch_day.csv"], ["--gauge", "39 psi"]],
    }
    pages = {}
    for name, (layouts, options) in ask.items():
        pages[name] = folder / f"{name}.html"
        of_cups = name in ("sheet", "found")  # pages of the catch test alone
        command = [program, "catch" if of_cups else "report", *[str(examples / f) for f in layouts],
                   "--page" if of_cups else "-o", str(pages[name]), "--force", *options]
        done = subprocess.run(command, capture_output=True, text=True)
        if done.returncode not in (0, 1):
            sys.exit(f"{' '.join(command)}: {done.stderr}")
    return pages


def browser(width, dark=False, script=True):
    options = Options()
    options.binary_location = "/usr/bin/chromium"
    for word in ("--headless=new", "--no-sandbox", "--disable-dev-shm-usage", "--hide-scrollbars", "--disable-gpu"):
        options.add_argument(word)
    if not script:
        options.add_experimental_option("prefs", {"profile.managed_default_content_settings.javascript": 2})
    options.set_capability("goog:loggingPrefs", {"performance": "ALL"})
    driver = webdriver.Chrome(options=options, service=Service("/usr/bin/chromedriver"))
    driver.execute_cdp_cmd("Emulation.setDeviceMetricsOverride",
                           {"width": width, "height": 900, "deviceScaleFactor": 1, "mobile": width < 500})
    driver.execute_cdp_cmd("Emulation.setEmulatedMedia",
                           {"features": [{"name": "prefers-color-scheme", "value": "dark" if dark else "light"}]})
    return driver


def requests_of(driver):
    """Every address that the page asked for."""
    out = []
    for entry in driver.get_log("performance"):
        message = json.loads(entry["message"])["message"]
        if message["method"] == "Network.requestWillBeSent":
            out.append(message["params"]["request"]["url"])
    return out


def picture(driver, path):
    size = driver.execute_cdp_cmd("Page.getLayoutMetrics", {})["cssContentSize"]
    shot = driver.execute_cdp_cmd("Page.captureScreenshot", {
        "captureBeyondViewport": True,
        "clip": {"x": 0, "y": 0, "width": size["width"], "height": min(size["height"], 16000), "scale": 1}})
    path.write_bytes(base64.b64decode(shot["data"]))


# Text of a picture that lies on other text of it, or reaches out of it.
OVERLAPS = """
const found = [];
for (const svg of document.querySelectorAll('svg.picture, .map svg')) {
  const view = svg.getBoundingClientRect();
  const texts = [...svg.querySelectorAll('text')].filter(t => t.textContent.trim());
  const boxes = texts.map(t => t.getBoundingClientRect());
  const name = svg.getAttribute('aria-label') || '';
  for (let i = 0; i < boxes.length; ++i) {
    const a = boxes[i];
    if (a.left < view.left - 1 || a.right > view.right + 1 || a.top < view.top - 1 || a.bottom > view.bottom + 1)
      found.push(name + ': cut: ' + texts[i].textContent);
    if ((texts[i].getAttribute('transform') || '').includes('-35')) continue;  // its box is larger than its letters
    for (let j = i + 1; j < boxes.length; ++j) {
      const b = boxes[j];
      if ((texts[j].getAttribute('transform') || '').includes('-35')) continue;
      const wide = Math.min(a.right, b.right) - Math.max(a.left, b.left);
      const high = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
      if (wide > 1 && high > 3.5) found.push(name + ': ' + texts[i].textContent + ' on ' + texts[j].textContent);
    }
  }
}
return found;
"""


# Tables that have to be pushed sideways to be read. A map of speeds and rates may: it is a picture.
SIDEWAYS = """
return [...document.querySelectorAll('.wide:not(.map)')].filter(e => e.scrollWidth > e.clientWidth + 1)
  .map(e => e.innerText.slice(0, 40) + ': ' + e.scrollWidth + ' px in ' + e.clientWidth);
"""


def check_view(driver, name, view, url, folder):
    driver.get_log("performance")
    driver.get(url)
    asked = requests_of(driver)
    expect(url in asked, f"{name}, {view}: the browser's log does not even hold the page")
    outside = [u for u in asked if u != url and not u.startswith(("data:", "chrome:"))]
    expect(not outside, f"{name}, {view}: asks for {outside}")
    picture(driver, folder / f"{name}-{view}.png")
    wide, window = driver.execute_script("return [document.documentElement.scrollWidth, innerWidth]")
    expect(wide <= window, f"{name}, {view}: {wide} px wide in a window of {window} px")
    sideways = driver.execute_script(SIDEWAYS)
    expect(not sideways or name == "compared", f"{name}, {view}: tables wider than the window: {sideways}")
    found = driver.execute_script(OVERLAPS)
    expect(not found, f"{name}, {view}: text over text or cut: {found[:12]}")
    driver.execute_script(AXE)
    result = driver.execute_async_script(
        "const done = arguments[arguments.length - 1];"
        "axe.run(document, {runOnly: {type: 'tag', values: arguments[0]}}).then(done, e => done({error: String(e)}))",
        RULES)
    expect("error" not in result, f"{name}, {view}: axe: {result.get('error')}")
    for v in result.get("violations", []):
        nodes = [n["html"][:120] + " " + n.get("failureSummary", "")[:200] for n in v["nodes"][:3]]
        expect(False, f"{name}, {view}: {v['id']} ({len(v['nodes'])} times): {nodes}")
    expect(len(result.get("passes", [])) > 5, f"{name}, {view}: axe found hardly anything to check")


def main():
    program, examples, folder = sys.argv[1], Path(sys.argv[2]).resolve(), Path(sys.argv[3]).resolve()
    folder.mkdir(parents=True, exist_ok=True)
    pages = make_pages(program, examples, folder)
    texts = {}
    for view, width, dark in (("desktop", 1200, False), ("phone", 360, False), ("dark", 1200, True)):
        driver = browser(width, dark)
        driver.set_script_timeout(120)
        try:
            for name, path in pages.items():
                check_view(driver, name, view, path.as_uri(), folder)
                if view != "desktop":
                    continue
                texts[name] = driver.execute_script("return document.body.innerText")
                for paper, (w, h) in PAPER.items():
                    pdf = base64.b64decode(driver.execute_cdp_cmd("Page.printToPDF", {
                        "paperWidth": w, "paperHeight": h, "preferCSSPageSize": False, "printBackground": True})["data"])
                    (folder / f"{name}-{paper}.pdf").write_bytes(pdf)
                    sheets = len(re.findall(rb"/Type\s*/Page\b", pdf))
                    print(f"{name}: {sheets} sheets of {paper}")
                    expect(1 <= sheets <= MOST_SHEETS[name], f"{name}: {sheets} sheets of {paper}")
        finally:
            driver.quit()
    driver = browser(1200, script=False)
    try:
        for name, path in pages.items():
            driver.get(path.as_uri())
            # The browser's own reading of the page: the page itself may run nothing.
            root = driver.execute_cdp_cmd("DOM.getDocument", {"depth": 0})["root"]["nodeId"]
            body = driver.execute_cdp_cmd("DOM.querySelector", {"nodeId": root, "selector": "body"})["nodeId"]
            html = driver.execute_cdp_cmd("DOM.getOuterHTML", {"nodeId": body})["outerHTML"]
            plain = re.sub(r"\s+", "", re.sub(r"<[^>]*>", "", html))
            expect("<script" not in html, f"{name}: holds a script")
            first = re.sub(r"\s+", "", texts[name].splitlines()[0]).replace("&", "&amp;")
            expect(first in plain, f"{name}: without script the verdict cannot be read")
            picture(driver, folder / f"{name}-no-script.png")
    finally:
        driver.quit()
    if failures:
        sys.exit(f"{len(failures)} checks of the pages failed")
    print("all pages good: no sideways scrolling, no request, no violation of WCAG A and AA, no text over text")


if __name__ == "__main__":
    main()
