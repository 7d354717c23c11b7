"use strict";
// Renews the page while its scene is being written: what the server tells is shown, the moment and the person that are
// looked at stay, and the beat that was edited comes up. See docs/preview.md.
(() => {
  const find = (id) => document.getElementById(id);
  const add = (name, parent, className, text) => {
    const made = document.createElement(name);
    if (className) made.className = className;
    if (text !== undefined) made.textContent = text;
    parent.append(made);
    return made;
  };
  let page = -1, pictures = -1, edits = -1;

  // ---- The page ------------------------------------------------------------------------------------------------------

  // What had the focus has it again, when it is still there.
  const keepingFocus = (renew) => {
    const had = document.activeElement, id = had && had.id, words = had && had.textContent;
    const within = had && had.parentElement && had.parentElement.id;
    renew();
    if (id && find(id)) find(id).focus({preventScroll: true});
    else if (within && find(within))
      [...find(within).children].filter((one) => one.textContent === words).slice(0, 1).forEach((one) => one.focus({preventScroll: true}));
  };
  // The beat that was edited, unless the scene is playing; within it, as far from its start as before.
  const moved = (kept, before, beat) => {
    const beats = player ? player.scene.beats : [];
    if (!kept || kept.playing || !beats.length) return;
    const shown = before && before.beats[before.beat], now = beats.findIndex((one) => shown && one.name === shown.name);
    const to = beat >= 0 && beat < beats.length ? beat : now;
    if (to < 0) return;
    const same = to === now && shown, far = same ? kept.now - shown.begin : Infinity;
    player.go(same && far <= beats[to].end - beats[to].begin ? beats[to].begin + far : beats[to].decided);
  };
  const renewFrom = (text, beat) => {
    const next = new DOMParser().parseFromString(text, "text/html");
    const kept = player && player.kept();
    const before = player && {beats: player.scene.beats, beat: player.beat()};
    const gate = find("gate"), stills = [...document.querySelectorAll("#beats .beat")].map((one) =>
      [one.querySelector("h3").textContent, one.querySelector("svg.gate image")]);
    const scroll = scrollY;
    if (player) player.end();
    document.title = next.title;
    for (const part of ["body > svg.shared", "header.top", "main", "#scene"])
      document.querySelector(part).replaceWith(document.adoptNode(next.querySelector(part)));
    // Until they are drawn anew the old pictures stay, dimmed.
    const anew = find("gate");
    player = startPlayer(kept);
    if (player && gate && gate.width === anew.width) anew.getContext("2d").drawImage(gate, 0, 0);
    anew.classList.add("old");
    for (const one of document.querySelectorAll("#beats .beat")) {
      const image = one.querySelector("svg.gate image");
      const old = stills.find(([name, still]) => name === one.querySelector("h3").textContent && still);
      if (!image || !old || !old[1].getAttribute("href")) continue;
      image.setAttribute("href", old[1].getAttribute("href"));
      image.classList.add("old");
    }
    moved(kept || {playing: false, now: 0}, before, beat);
    scrollTo(0, scroll);
  };

  // ---- Pictures ------------------------------------------------------------------------------------------------------

  const showPictures = (told) => {
    document.querySelectorAll("#beats .beat svg.gate image").forEach((image, i) => {
      const address = told.beats[i];
      if (!address) return;
      if (image.getAttribute("href") !== address) image.setAttribute("href", address);
      image.classList.remove("old");
    });
    if (player) player.showPictures(told);
  };

  // ---- What is told --------------------------------------------------------------------------------------------------

  const lineWords = (where) => where.file + ":" + where.line + ": ";
  const showNews = (news) => {
    const out = news.stale;
    document.body.classList.toggle("out-of-date", out);
    find("news").hidden = !out;
    find("news").textContent = "";
    if (!out) return;
    add("h2", find("news"), "", news.headline.replaceAll("`", ""));
    const list = add("ul", find("news"));
    for (const one of news.trouble) {
      const item = add("li", list, "", (one.where ? lineWords(one.where) : "") + one.message.replaceAll("`", ""));
      if (one.where) add("span", item, "written", one.where.text);
      if (one.next) add("p", item, "", "Next: " + one.next.replaceAll("`", ""));
    }
    add("p", find("news"), "", news.page ? "Below, dimmed, stands what could be staged last." : "");
  };
  const showScenes = (scenes) => {
    find("scenes").hidden = scenes.length < 2;
    find("scenes").textContent = "";
    const list = add("ul", find("scenes"));
    for (const one of scenes) {
      const item = add("li", list, one.shown ? "here" : "", one.name + ": " + one.findings);
      if (one.shown) item.setAttribute("aria-current", "true");
    }
  };
  const showStage = (stage) => {
    const facts = document.querySelector("header.top .facts");
    if (!facts) return;
    const words = facts.querySelector(".stage") || add("span", facts, "stage");
    words.textContent = stage ? " · " + stage : "";
  };

  // ---- Lines of the text ---------------------------------------------------------------------------------------------

  const showLine = (words, where) => {
    const box = find("written");
    box.hidden = !where;
    box.textContent = "";
    if (!where) return;
    const shut = add("button", box, "", "Close");
    shut.type = "button";
    shut.addEventListener("click", () => { box.hidden = true; });
    add("b", box, "", words);
    add("span", box, "", " " + lineWords(where));
    add("span", box, "line", where.text);
  };
  const showPerson = (i) => showLine(player.scene.people[i].name, player.scene.written.people[i]);
  const showFinding = (i) => showLine("Finding", player.scene.written.findings[i]);
  // The nearest mark of a person who comes to it by the end of the beat, within a step.
  const showMarkAt = (event) => {
    const svg = find("floor"), floor = player.scene.floor;
    const point = new DOMPoint(event.clientX, event.clientY).matrixTransform(svg.getScreenCTM().inverse());
    const x = point.x / floor.scale + floor.low_x, y = floor.high_y - point.y / floor.scale;
    const end = player.scene.beats[player.beat()].end;
    const near = player.scene.written.marks.filter((one) => one.where && one.at <= end)
      .map((one) => ({one, far: Math.hypot(one.x - x, one.y - y)})).sort((a, b) => a.far - b.far)[0];
    if (near && near.far < 0.5) showLine("Mark " + near.one.name, near.one.where);
  };
  document.addEventListener("click", (event) => {
    if (!player || !player.scene.written) return;
    const at = (selector) => event.target.closest(selector);
    const index = (item) => [...item.parentElement.children].indexOf(item);
    if (at("#figures > g")) return showPerson(index(at("#figures > g")));
    if (at("#whose button") && index(at("#whose button")) > 0) {
      const name = at("#whose button").textContent;
      return showPerson(player.scene.people.findIndex((person) => person.name === name));
    }
    if (at(".findings li") && !at("button")) return showFinding(Number(at(".findings li").dataset.finding));
    if (at("#told") && at("#told").textContent) {
      const words = at("#told").textContent;
      return showFinding(player.scene.findings.findIndex((one) => words.startsWith(one.number + " · ")));
    }
    if (at("#floor")) showMarkAt(event);
  });

  // ---- Listening -----------------------------------------------------------------------------------------------------

  // One after the other: what is fetched for an older version never overtakes a newer.
  let latest = null, busy = false;
  const renew = async () => {
    if (busy) return;
    busy = true;
    try {
      while (latest) {
        const news = latest;
        latest = null;
        if (news.page !== page) {
          const answer = await fetch("page");
          if (!answer.ok) throw new Error(await answer.text());
          const text = await answer.text();
          keepingFocus(() => renewFrom(text, news.edits !== edits ? news.beat : -1));
          page = news.page;
          edits = news.edits;
          pictures = -1;
        }
        if (news.pictures !== pictures && player) {
          const answer = await fetch("pictures.json");
          if (!answer.ok) throw new Error(await answer.text());
          showPictures(await answer.json());
          pictures = news.pictures;
        }
        showNews(news);
        showScenes(news.scenes);
        showStage(news.stage);
        document.body.dataset.version = news.version;
      }
    } catch (lost) {
      listenAgain();
    }
    busy = false;
  };
  let source = null, waiting = 0;
  const listen = () => {
    waiting = 0;
    source = new EventSource("events");
    source.addEventListener("message", (event) => {
      latest = JSON.parse(event.data);
      renew();
    });
    source.addEventListener("error", () => {
      showStage("the program does not answer; trying again");
      listenAgain();
    });
  };
  const listenAgain = () => {
    if (waiting) return;
    source.close();
    waiting = setTimeout(listen, 2000);
  };
  listen();
})();
