"use strict";
/* Keeps what is typed and tapped until the shop has confirmed it, and brings in what has changed.
   Every page works without this as forms and links; with it nothing is lost when a tablet sleeps,
   the network drops or the server restarts. */
(() => {
  const here = location.pathname;
  const $ = (id) => document.getElementById(id);
  const chance = () => Array.from(crypto.getRandomValues(new Uint8Array(12)), (b) => b.toString(16).padStart(2, "0")).join("");
  const kept = (head) => Object.keys(localStorage).filter((key) => key.startsWith(head)).sort();
  const wait = (ms) => new Promise((go) => setTimeout(go, ms));

  /* ---- Taps: one line of them, each with a key of its own, sent in order until confirmed ---- */
  let sending = false, order = 0;
  const tries = new Map(), MOST = 5; // a tap over which the shop's program stumbles so often is laid aside: the rest goes on
  const own = new Set();
  const mine = Date.now().toString().padStart(15, "0");

  function tap(to, body, typed = []) {
    const id = chance();
    own.add(id);
    localStorage.setItem(`tap:${mine}:${String(order++).padStart(6, "0")}:${id}`, JSON.stringify({ id, to, body, typed, page: here }));
    send();
  }

  async function send() {
    if (sending) return;
    sending = true;
    for (let key; (key = kept("tap:")[0]); ) {
      const { id, to, body, typed = [], page } = JSON.parse(localStorage.getItem(key));
      const answer = await ask(to, { method: "POST", body, headers: { "X-Tap": id, "Content-Type": "application/x-www-form-urlencoded" } });
      if (answer && answer.status === 500) {
        tries.set(key, (tries.get(key) || 0) + 1);
        if (tries.get(key) >= MOST) { moved(key, "aside:" + key.slice(4)); tries.delete(key); aside(); continue; }
      }
      if (!answer || answer.status >= 500 || answer.status === 429) { offline(true); await wait(answer ? 1500 : 700); continue; }
      if (answer.status === 401) { location.href = "/enter?to=" + encodeURIComponent(here); break; }
      offline(false);
      localStorage.removeItem(key);
      if (answer.ok || answer.status === 409) taken(typed); else refused(typed);
      const go = answer.headers.get("X-Go");
      if (go && page === here) { location.href = go; break; }
      if (page === here) swap(answer.text);
    }
    sending = false;
    offline(false);
  }

  function moved(from, to) { localStorage.setItem(to, localStorage.getItem(from)); localStorage.removeItem(from); }
  function aside() {
    const bar = $("aside"), n = kept("aside:").length;
    if (!bar) return;
    bar.hidden = !n;
    bar.firstElementChild.textContent = `The shop's program has a fault with ${n === 1 ? "one change" : n + " changes"} made here. Nothing of it is written; it is kept on this screen.`;
  }
  document.addEventListener("click", (event) => {
    const what = event.target.dataset && event.target.dataset.aside;
    if (!what) return;
    for (const key of kept("aside:")) if (what === "again") moved(key, "tap:" + key.slice(6)); else localStorage.removeItem(key);
    aside();
    send();
  });

  async function ask(to, how) { // whole, or none: an answer that is cut off is asked for once more
    try {
      const answer = await fetch(to, { ...how, credentials: "same-origin", redirect: "error", signal: how.signal || AbortSignal.timeout(20000) });
      return { ok: answer.ok, status: answer.status, headers: answer.headers, text: await answer.text() };
    } catch { return null; }
  }

  function offline(is) {
    const bar = $("offline"), left = kept("tap:").length;
    if (!bar || (bar.hidden && !is)) return;
    bar.hidden = !is;
    if (is) bar.firstElementChild.textContent = left
      ? `The shop's computer does not answer. ${left === 1 ? "One change is" : left + " changes are"} kept here and will be sent.`
      : "The shop's computer does not answer. What you type is kept here.";
  }

  /* ---- Parts of the page replaced by id; focus, caret, what is typed and what is open stay ---- */
  let following = false; // what others did; a conflict that is shown stays until a hand settles it
  function swap(text, others) {
    following = Boolean(others);
    const fresh = document.createElement("template");
    fresh.innerHTML = text;
    const had = document.activeElement && document.activeElement.id, chosen = document.querySelector(".tile input:checked");
    for (const part of [...fresh.content.children]) { const old = part.id && $(part.id); if (old) morph(old, part); }
    if (had && document.activeElement === document.body && $(had)) $(had).focus({ preventScroll: true }); // it moved elsewhere
    if (others && chosen && $(chosen.id)) $(chosen.id).checked = true;
    ready();
  }

  function morph(old, fresh) {
    if (old.nodeType !== fresh.nodeType || old.nodeName !== fresh.nodeName || (old.id || "") !== (fresh.id || "")) { old.replaceWith(fresh); return; }
    if (old.nodeType !== 1) { if (old.nodeValue !== fresh.nodeValue) old.nodeValue = fresh.nodeValue; return; }
    if (old.isEqualNode(fresh) && !("value" in old) && !old.querySelector("input,select,textarea")) return;
    const typed = old.matches("input,textarea,select") && (old === document.activeElement || old.closest(".typed"));
    for (const { name } of [...old.attributes]) if (!fresh.hasAttribute(name) && name !== "open" && !(name === "class" && typed)) old.removeAttribute(name);
    for (const { name, value } of [...fresh.attributes]) if (old.getAttribute(name) !== value && !(typed && name === "value")) old.setAttribute(name, value);
    if (!typed) {
      if (old.matches("input:not([type=radio]):not([type=checkbox]):not([type=file])")) old.value = fresh.getAttribute("value") || "";
      if (old.matches("[type=radio],[type=checkbox]")) old.checked = fresh.hasAttribute("checked");
      if (old.matches("textarea")) { old.value = fresh.textContent; return; }
    }
    const stays = following ? [...old.children].filter((each) => each.dataset.stays) : [];
    const behind = stays.map((each) => (each.previousElementSibling || {}).id);
    stays.forEach((each) => each.remove());
    const news = [...fresh.childNodes];
    news.forEach((child, i) => {
      const now = old.childNodes[i], known = child.id && [...old.children].find((each) => each.id === child.id);
      if (known) { if (known !== now) old.insertBefore(known, now || null); morph(known, child); }
      else if (!now) old.append(child);
      else if (now.id && news.some((each) => each.id === now.id)) old.insertBefore(child, now);
      else morph(now, child);
    });
    while (old.childNodes.length > news.length) old.lastChild.remove();
    stays.forEach((each, i) => { const after = behind[i] && $(behind[i]); if (after) after.after(each); else old.prepend(each); });
    if (old.matches("select") && !typed) old.value = (fresh.querySelector("[selected]") || fresh.options[0] || {}).value;
  }

  /* ---- Parts that come later, and parts that follow what others do ---- */
  const wanted = new Map();
  function fetchPart(part, url) {
    if (wanted.get(part.id) === url) return;
    wanted.set(part.id, url);
    (async () => {
      for (;;) {
        const answer = await ask(url, { headers: { "X-Parts": part.id }, signal: AbortSignal.timeout(180000) }); // it may be long work
        if (wanted.get(part.id) !== url) return;
        if (answer && answer.status < 500) offline(false);
        if (answer && answer.headers.get("X-Go")) { location.href = answer.headers.get("X-Go"); return; }
        if (answer && answer.status < 500) { wanted.delete(part.id); if (answer.ok && answer.status !== 204) swap(answer.text); return; }
        offline(true);
        await wait(1000);
      }
    })();
  }
  function ready() {
    for (const part of document.querySelectorAll("[data-wants]")) { const url = part.dataset.wants; part.removeAttribute("data-wants"); fetchPart(part, url); }
    cells(); drafts(); ticking(); fingers();
  }
  let due;
  function follow(names) {
    if (names) names = names.filter((name) => !own.has(name.split("~")[1])).map((name) => name.split("~")[0]);
    const parts = [...document.querySelectorAll("[data-follows]")].filter((part) => !names || part.dataset.follows.split(" ").some((name) => names.some((told) => told === name || told.startsWith(name + ":"))));
    if (!parts.length) return;
    clearTimeout(due);
    due = setTimeout(async () => {
      if (kept("tap:").length) return follow(names);
      const answer = await ask(location.href, { headers: { "X-Parts": [...new Set(parts.map((part) => part.id))].join(" ") } });
      if (answer && answer.ok) swap(answer.text, true);
    }, 120);
  }
  let stream = null, met = false, stands = null; // which records: others, once a backup was put back
  function listen() {
    if (document.hidden || !document.querySelector("[data-follows],#restored")) { if (stream) stream.close(); stream = null; return; }
    if (stream) return;
    stream = new EventSource("/live");
    stream.addEventListener("hello", (event) => {
      if (met) follow(null);
      if (stands && stands !== event.data && $("restored")) $("restored").hidden = false;
      met = true; stands = event.data; offline(false); send();
    });
    stream.addEventListener("change", (event) => follow(event.data.split(" ")));
    stream.addEventListener("error", () => { offline(true); if (stream && stream.readyState === 2) { stream = null; setTimeout(listen, 1000); } });
  }
  document.addEventListener("visibilitychange", () => { listen(); if (!document.hidden) send(); });
  addEventListener("online", send);
  addEventListener("pagehide", () => { if (stream) stream.close(); stream = null; });
  addEventListener("pageshow", (event) => { if (event.persisted) { listen(); follow(null); } });

  /* ---- Forms: sent as taps; what is half typed is kept here until it is confirmed ---- */
  const body = (form, by) => { const data = new URLSearchParams(new FormData(form)); if (by && by.name) data.set(by.name, by.value); return data.toString(); };
  const place = (input) => `draft:${here}:${input.form && input.form.dataset.keep || ""}:${input.name}`;
  const holders = (key) => [...document.querySelectorAll("[data-keep] [name]")].filter((input) => place(input) === key);

  document.addEventListener("submit", (event) => {
    const form = event.target;
    if (!form.matches("[data-tap]")) return;
    event.preventDefault();
    const typed = [...form.elements].filter((input) => input.name && localStorage.getItem(place(input)) !== null).map((input) => [place(input), input.value]);
    tap(form.getAttribute("action"), body(form, event.submitter), typed);
    if (form.dataset.tap === "clear") form.reset();
    const now = form.querySelector("[data-working]");
    if (now) now.hidden = false;
  });
  document.addEventListener("input", (event) => {
    const input = event.target, form = input.form;
    if (!form || !form.dataset.keep || !input.name || input.type === "file" || input.type === "hidden") return;
    localStorage.setItem(place(input), input.value);
    mark(input, true);
    if (form.dataset.tries) attempt(form.dataset.tries);
  });
  document.addEventListener("change", (event) => {
    const form = event.target.form;
    if (form && form.dataset.tap === "change" && form.checkValidity()) form.requestSubmit();
  });
  function mark(input, is) { const field = input.closest(".field"); if (field) field.classList.toggle("typed", is); }
  function taken(typed) {
    for (const [key, value] of typed) if (localStorage.getItem(key) === value) { localStorage.removeItem(key); for (const input of holders(key)) mark(input, false); }
  }
  function refused(typed) { // a form gets its words back, to be put right; what was typed since stays
    for (const [key, value] of typed) if (localStorage.getItem(key) === value) for (const input of holders(key)) { input.value = value; mark(input, true); }
  }
  function drafts() {
    const sent = new Set(kept("tap:").flatMap((key) => JSON.parse(localStorage.getItem(key)).typed || []).map(([key, value]) => key + value));
    for (const input of document.querySelectorAll("[data-keep] [name]:not([type=hidden]):not([type=file])")) {
      if (input.dataset.seen) continue;
      input.dataset.seen = "1";
      const draft = localStorage.getItem(place(input));
      if (sent.has(place(input) + draft)) continue; // on its way: once is enough
      if (draft === null || draft === input.value) { localStorage.removeItem(place(input)); continue; }
      input.value = draft;
      mark(input, true);
    }
  }
  let trying = null, soon;
  function attempt(url) {
    clearTimeout(soon);
    soon = setTimeout(async () => {
      if (trying) trying.abort();
      trying = new AbortController();
      const said = new URLSearchParams();
      for (const input of document.querySelectorAll(".typed [name=value]")) said.append(input.form.elements.key.value, input.value);
      const seen = $("seen");
      if (seen) seen.classList.add("old");
      const answer = await ask(url, { method: "POST", body: said, signal: trying.signal });
      if (answer && answer.status === 200) swap(answer.text);
    }, 220);
  }

  /* ---- Cells of the drawing ---- */
  function cells() {
    const picture = document.querySelector(".touch[data-cells]"), state = $("states");
    if (!picture || !state) return;
    const marks = JSON.parse(state.dataset.marks || "{}"), words = JSON.parse(state.dataset.words || "{}");
    for (const cell of picture.querySelectorAll("g[data-cell]")) {
      const number = cell.dataset.cell, look = `cell ${marks[number] || ""}`.trim();
      if (!cell.hasAttribute("role")) { cell.setAttribute("role", "button"); cell.setAttribute("tabindex", number === "1" ? "0" : "-1"); }
      if (cell.getAttribute("class") !== look && !kept("tap:").length) cell.setAttribute("class", look);
      cell.setAttribute("aria-label", `Cell ${number}, ${words[number] || "sound"}`);
    }
  }
  function press(cell) {
    const picture = cell.closest("[data-cells]"), tool = document.querySelector("input[name=tool]:checked");
    if (!picture || !tool) return;
    const had = cell.classList.contains(tool.dataset.mark || "none"), state = had ? "sound" : tool.value;
    cell.setAttribute("class", `cell ${had ? "" : tool.dataset.mark || ""}`.trim());
    tap(picture.dataset.cells, new URLSearchParams({ cell: cell.dataset.cell, state }).toString());
  }
  document.addEventListener("click", (event) => { const cell = event.target.closest && event.target.closest(".touch g[data-cell]"); if (cell) press(cell); });
  const AT = { ArrowUp: [0, -1], ArrowDown: [0, 1], ArrowLeft: [-1, 0], ArrowRight: [1, 0] };
  document.addEventListener("keydown", (event) => {
    const cell = event.target.closest && event.target.closest("g[data-cell]");
    if (!cell) return;
    if (event.key === "Enter" || event.key === " ") { event.preventDefault(); press(cell); }
    if (!AT[event.key]) return;
    event.preventDefault();
    const from = cell.getBoundingClientRect(), [dx, dy] = AT[event.key];
    let best = null, least = Infinity;
    for (const other of cell.parentNode.querySelectorAll("g[data-cell]")) {
      const at = other.getBoundingClientRect(), x = at.x - from.x, y = at.y - from.y, along = x * dx + y * dy;
      const far = along + 4 * Math.abs(x * dy) + 4 * Math.abs(y * dx);
      if (along > 4 && far < least) { least = far; best = other; }
    }
    if (best) { cell.setAttribute("tabindex", "-1"); best.setAttribute("tabindex", "0"); best.focus(); }
  });

  /* ---- Strings of an array: a letter puts the chosen panel; a scanner types more than one ---- */
  let lettered;
  document.addEventListener("keydown", (event) => {
    clearTimeout(lettered);
    const board = event.target.closest && event.target.closest("[data-letters]");
    if (!board || event.key.length !== 1 || event.ctrlKey || event.metaKey || event.altKey) return;
    const put = board.querySelector(`button[data-letter="${CSS.escape(event.key.toLowerCase())}"]`);
    if (put) lettered = setTimeout(() => board.requestSubmit(put), 160);
  });
  document.addEventListener("click", (event) => { // a mistake leads to its line
    const line = event.target.dataset && Number(event.target.dataset.line), text = $("text");
    if (!line || !text) return;
    const before = text.value.split("\n").slice(0, line - 1), at = before.join("\n").length + (line > 1 ? 1 : 0);
    text.focus();
    text.setSelectionRange(at, at + (text.value.split("\n")[line - 1] || "").length);
    text.scrollTop = Math.max(0, (line - 4) * text.scrollHeight / text.value.split("\n").length);
  });

  /* ---- Charts: the reading under the finger, or under the arrow keys ---- */
  const pointed = new Map(); // where each chart is read: an answer that comes later does not take the finger away
  const named = (chart) => chart.closest("[id]").id;
  function fingers() { for (const chart of document.querySelectorAll("svg[data-points]")) if (pointed.has(named(chart))) reading(chart, pointed.get(named(chart))); }
  function reading(chart, share) {
    pointed.set(named(chart), share);
    const data = JSON.parse(chart.dataset.points), [x0, x1, left, right, top, bottom] = data.frame;
    const x = x0 + Math.min(1, Math.max(0, share)) * (x1 - x0), at = left + (x - x0) / (x1 - x0) * (right - left);
    const says = data.series.map(({ name, unit, x: xs, y: ys }) => {
      let i = xs.findIndex((each) => each >= x);
      if (i < 0) i = xs.length - 1;
      const j = Math.max(0, i - 1), part = xs[i] > xs[j] ? (x - xs[j]) / (xs[i] - xs[j]) : 0;
      return `${name} ${(ys[j] + part * (ys[i] - ys[j])).toPrecision(3)}\u2009${unit}`;
    });
    chart.parentNode.querySelector(".reading").textContent = `${data.name} ${x.toPrecision(3)}\u2009${data.unit}: ${says.join(", ")}`;
    let line = chart.querySelector(".finger");
    if (!line) { line = document.createElementNS("http://www.w3.org/2000/svg", "line"); line.setAttribute("class", "finger"); chart.append(line); }
    for (const [name, value] of Object.entries({ x1: at, x2: at, y1: top, y2: bottom })) line.setAttribute(name, value);
  }
  function touched(event) {
    const chart = event.target.closest && event.target.closest("svg[data-points]");
    if (!chart || (event.type === "pointermove" && event.pointerType === "touch" && !event.isPrimary)) return;
    const point = new DOMPoint(event.clientX, event.clientY).matrixTransform(chart.getScreenCTM().inverse());
    const [, , left, right] = JSON.parse(chart.dataset.points).frame;
    reading(chart, (point.x - left) / (right - left));
  }
  document.addEventListener("pointermove", touched);
  document.addEventListener("pointerdown", touched);
  document.addEventListener("keydown", (event) => {
    const chart = event.target.closest && event.target.closest("svg[data-points]");
    const step = { ArrowLeft: -0.02, ArrowRight: 0.02, Home: -2, End: 2 }[event.key];
    if (!chart || !step) return;
    event.preventDefault();
    reading(chart, Math.min(1, Math.max(0, (pointed.get(named(chart)) || 0) + step)));
  });

  /* ---- Clocks that run, and the scanner that types like a keyboard ---- */
  let clock = null;
  function ticking() {
    const running = document.querySelectorAll("[data-until]");
    if (running.length && !clock) clock = setInterval(ticking, 1000);
    for (const each of running) {
      const left = Math.round((Date.parse(each.dataset.until) - Date.now()) / 1000), n = Math.abs(left);
      const words = n >= 3600 ? `${Math.floor(n / 3600)} h ${Math.floor(n / 60) % 60} min` : n >= 60 ? `${Math.floor(n / 60)} min ${n % 60} s` : `${n} s`;
      each.textContent = left > 0 ? `${words} to go` : `done, ${words} ago`;
    }
  }
  let typed = "", last = 0;
  document.addEventListener("keydown", (event) => {
    if ((event.target.matches && event.target.matches("input,textarea,select")) || event.key === "Shift") return;
    const fast = event.timeStamp - last < 100; // a scanner without a wire takes up to 60 ms a letter, a hand seldom less than 120
    last = event.timeStamp;
    if (fast && typed.length > 3 && (event.key === "Enter" || event.key === " ")) event.preventDefault(); // no button is pressed by a scan
    if (event.key === "Enter" && fast && typed.length > 3) {
      const scans = document.querySelector("[data-scans]"), lot = typed;
      typed = "";
      if (scans) tap(scans.dataset.scans, new URLSearchParams({ lot }).toString()); else location.href = "/serial?code=" + encodeURIComponent(lot);
      return;
    }
    typed = event.key.length === 1 ? (fast ? typed + event.key : event.key) : "";
  });

  for (const file of document.querySelectorAll("input[type=file][data-go]")) file.addEventListener("change", () => file.form.requestSubmit());
  for (const print of document.querySelectorAll("[data-print]")) print.addEventListener("click", () => window.print());
  ready(); listen(); aside(); send();
})();
