"use strict";
// Plays the scene over the still page. Rows of tracks are lists; see show_json.cpp and docs/page.md for their places.

// Each face once, though the page be renewed.
const faces = new Map();
const loadFaces = (wanted) => {
  for (const {family, weight, style, data} of wanted) {
    const key = family + weight + style, before = faces.get(key);
    if (before && before.data === data) continue;
    const face = new FontFace(family, "url(data:font/otf;base64," + data + ")", {weight, style});
    faces.set(key, {data, face});
    face.load().then(() => {
      document.fonts.add(face);
      if (before) document.fonts.delete(before.face);
    }, () => { /* the system's own are named after it */ });
  }
};

// Starts at `kept`, which a player that has ended gives, else at the address after #. Null when nothing can be played.
const startPlayer = (kept) => {
  const scene = JSON.parse(document.getElementById("scene").textContent);
  if (!scene.beats.length || !scene.end) return null;
  loadFaces(scene.faces);
  const ended = new AbortController();

  const find = (id) => document.getElementById(id);
  const clamp = (value, low, high) => Math.min(high, Math.max(low, value));
  const calm = matchMedia("(prefers-reduced-motion: reduce)");
  const element = (name, attributes, parent) => {
    const made = document.createElementNS("http://www.w3.org/2000/svg", name);
    for (const key in attributes) made.setAttribute(key, attributes[key]);
    if (parent) parent.append(made);
    return made;
  };
  const html = (name, parent, className, text) => {
    const made = document.createElement(name);
    if (className) made.className = className;
    if (text !== undefined) made.textContent = text;
    if (parent) parent.append(made);
    return made;
  };
  const clock = (ms) => {
    const tenths = Math.round(ms / 100);
    const seconds = (tenths % 600) / 10;
    return Math.floor(tenths / 600) + ":" + (seconds < 10 ? "0" : "") + seconds.toFixed(1);
  };
  // The last row that has begun.
  const indexAt = (rows, ms, moment = (row) => row[0]) => {
    let low = 0, high = rows.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (moment(rows[middle]) <= ms) low = middle + 1;
      else high = middle;
    }
    return low - 1;
  };
  // A row whose numbers go evenly to the next; null when there is nothing then.
  const between = (rows, ms, even) => {
    const at = Math.max(0, indexAt(rows, ms));
    const row = rows[at], next = rows[at + 1];
    if (!row || row.length < 2) return null;
    if (!next || next.length < 2 || ms <= row[0]) return row;
    const part = (ms - row[0]) / (next[0] - row[0]);
    return row.map((value, i) => (even.includes(i) && i < next.length ? value + (next[i] - value) * part : value));
  };

  let now = 0, playing = false, speed = 1, only = -1, drawn = -1;
  const beatAt = (ms) => Math.max(0, indexAt(scene.beats, ms, (beat) => beat.begin));

  // ---- The frame -----------------------------------------------------------------------------------------------------

  const gate = find("gate"), heads = find("heads");
  const wide = scene.pictures.width, high = wide * scene.pictures.ratio;
  const images = new Map();
  let pictures = scene.pictures, shown = "", wanted = "";
  // Empty: not drawn yet.
  const sourceOf = (index) => {
    if (index < 0) return "";
    return pictures.addresses ? pictures.addresses[index] : "data:image/png;base64," + pictures.pngs[index];
  };
  const imageOf = (source) => {
    let image = images.get(source);
    if (!image) {
      image = new Image();
      image.src = source;
      images.set(source, image);
      if (images.size > 24) images.delete(images.keys().next().value);
    }
    return image;
  };
  const paint = (source) => {
    const image = imageOf(source);
    if (shown !== source && !image.complete) {
      image.onload = () => { if (wanted === source) paint(source); };
      return;
    }
    if (shown !== source) gate.getContext("2d").drawImage(image, 0, 0, gate.width, gate.height);
    shown = source;
    gate.classList.remove("old");
  };
  // Until a picture is drawn the one before stays, dimmed.
  const drawFrame = () => {
    const showing = pictures.showing;
    if (!showing.length) return;
    const at = Math.max(0, indexAt(showing, now));
    wanted = sourceOf(showing[at][1]);
    if (wanted) paint(wanted);
    else gate.classList.add("old");
    for (let ahead = 1; ahead < 5 && at + ahead < showing.length; ++ahead)
      if (showing[at + ahead][1] >= 0) imageOf(sourceOf(showing[at + ahead][1]));
  };

  // Names under their heads, side by side, in a second row what has no room.
  const headNames = scene.people.map((person) => {
    const group = element("g", {}, heads);
    element("path", {class: "asked", d: "M0 1l-5 8h10z"}, group);
    const text = element("text", {y: 24}, group);
    text.textContent = person.name;
    return {group, text, mark: group.firstChild};
  });
  let rows = 0;
  const drawHeads = (places, asked) => {
    const order = places.map((place, i) => ({i, across: place && place.length > 9 ? place[9] : null}))
      .filter((one) => one.across !== null).sort((a, b) => a.across - b.across);
    headNames.forEach((name) => name.group.setAttribute("visibility", "hidden"));
    const taken = [0, 0];
    let used = 1;
    for (const {i, across} of order) {
      const {group, text, mark} = headNames[i];
      text.classList.toggle("asked", asked.includes(i));
      const half = Math.min(wide / 2, text.getComputedTextLength() / 2);
      const head = clamp(across, 0, 1) * wide, wished = clamp(head, half, wide - half);
      let x = Math.max(wished, taken[0] + half);
      const row = x + half > wide || x - wished > 2 * half ? 1 : 0;
      if (row) x = Math.min(Math.max(wished, taken[1] + half), wide - half);
      used = Math.max(used, row + 1);
      taken[row] = x + half + 7;
      group.setAttribute("visibility", "visible");
      text.setAttribute("x", x.toFixed(1));
      text.setAttribute("y", 24 + 22 * row);
      mark.setAttribute("transform", "translate(" + head.toFixed(1) + ")");
      mark.setAttribute("visibility", asked.includes(i) ? "inherit" : "hidden");
    }
    if (rows !== used) heads.ownerSVGElement.setAttribute("viewBox", "0 0 " + wide + " " + (8 + 22 * (rows = used)));
  };

  // ---- The floor -----------------------------------------------------------------------------------------------------

  const floor = scene.floor;
  const across = (x) => (x - floor.low_x) * floor.scale, down = (y) => (floor.high_y - y) * floor.scale;
  const placeOf = (person) => between(person.track, now, [1, 2, 3, 4, 7, 8, 9]);
  const figures = scene.people.map((person, i) => {
    const gaze = element("path", {class: "gaze"}, find("gazes"));
    const group = element("g", {}, find("figures"));
    const ring = element("g", {class: "mine-now"}, group);
    element("circle", {r: floor.figure * 1.45}, ring);
    const body = element("use", {}, group), head = element("use", {href: "#head"}, group);
    const text = element("text", {}, group);
    text.textContent = person.name;
    return {gaze, group, ring, body, head, text, was: ""};
  });
  const drawGaze = (figure, place, x, y) => {
    const dx = across(place[7]) - x, dy = down(place[8]) - y, far = Math.hypot(dx, dy), r = floor.figure;
    if (!place[6] || far < 3 * r) return figure.gaze.setAttribute("d", "");
    const point = (along) => (x + dx * along / far).toFixed(2) + " " + (y + dy * along / far).toFixed(2);
    figure.gaze.setAttribute("d", "M" + point(r) + "L" + point(far - r - 0.4));
  };
  const drawFigures = (places, asked) => {
    places.forEach((place, i) => {
      const figure = figures[i];
      figure.group.setAttribute("visibility", place ? "visible" : "hidden");
      figure.gaze.setAttribute("visibility", place ? "visible" : "hidden");
      if (!place) return;
      const x = across(place[1]), y = down(place[2]);
      figure.group.setAttribute("transform", "translate(" + x.toFixed(2) + " " + y.toFixed(2) + ")");
      const body = "#body-" + i + "-" + place[5] + (asked.includes(i) ? "-asked" : "");
      if (figure.was !== body) figure.body.setAttribute("href", figure.was = body);
      figure.body.setAttribute("transform", "rotate(" + place[3].toFixed(1) + ")");
      figure.head.setAttribute("transform", "rotate(" + place[4].toFixed(1) + ")");
      const crowded = places.some((other, j) => j !== i && other && Math.abs(across(other[1]) - x) < 9 &&
        y - down(other[2]) > 0 && y - down(other[2]) < 3 * floor.figure + 2);
      figure.text.setAttribute("y", crowded ? floor.figure + 3.4 : -floor.figure - 1);
      figure.group.classList.toggle("aside", only >= 0 && only !== i);
      figure.gaze.classList.toggle("aside", only >= 0 && only !== i);
      figure.ring.setAttribute("visibility", only === i ? "inherit" : "hidden");
      drawGaze(figure, place, x, y);
    });
  };

  const things = scene.props.map((prop) => {
    const group = element("g", {}, find("things"));
    element("path", {d: "M0-.95.95 0 0 .95-.95 0z"}, group);
    const text = element("text", {y: -1.6}, group);
    text.textContent = prop.name;
    return {group, text};
  });
  // What is with somebody stands beside them and needs no name.
  const drawThings = (places) => scene.props.forEach((prop, i) => {
    const place = between(prop.track, now, [1, 2]), {group, text} = things[i];
    group.setAttribute("visibility", place ? "visible" : "hidden");
    if (!place) return;
    let x = across(place[1]), y = down(place[2]);
    let near = false;
    for (const person of places) {
      if (!person) continue;
      const dx = x - across(person[1]), dy = y - down(person[2]), far = Math.hypot(dx, dy), least = floor.figure + 1;
      near = near || far < 2 * least;
      if (far > 0.01 && far < least) { x += dx / far * (least - far); y += dy / far * (least - far); }
    }
    group.setAttribute("transform", "translate(" + x.toFixed(2) + " " + y.toFixed(2) + ")");
    text.setAttribute("visibility", near ? "hidden" : "inherit");
  });

  const angle = find("angle"), lens = find("lens");
  if (scene.camera.length) {
    for (const name of ["hem", "hem", "edge", "edge", "focus"]) element("line", {class: name}, angle);
    element("path", {d: "M-1.5-.6h3l-.7 1.8h-1.6zM-1.6 1.5h3.2v3.7h-3.2z"}, lens);
  }
  const drawCamera = () => {
    const row = scene.camera.length && between(scene.camera, now, [2, 3, 4, 5, 6]);
    if (!row) return;
    const x = across(row[2]), y = down(row[3]), radians = Math.PI / 180, far = floor.width + floor.height;
    const way = (bearing) => [Math.sin(bearing * radians), -Math.cos(bearing * radians)];
    const set = (line, x1, y1, x2, y2) => {
      line.setAttribute("x1", x1.toFixed(2)); line.setAttribute("y1", y1.toFixed(2));
      line.setAttribute("x2", x2.toFixed(2)); line.setAttribute("y2", y2.toFixed(2));
    };
    [-1, 1].forEach((side, i) => {
      const [dx, dy] = way(row[4] + side * row[5]), inward = 0.9 * side;
      const hx = dy * inward, hy = -dx * inward;
      set(angle.children[i], x + dx * 5 + hx, y + dy * 5 + hy, x + dx * far + hx, y + dy * far + hy);
      set(angle.children[2 + i], x, y, x + dx * far, y + dy * far);
    });
    const [dx, dy] = way(row[4]), depth = row[6] * floor.scale, half = depth * Math.tan(row[5] * radians);
    set(angle.children[4], x + dx * depth - dy * half, y + dy * depth + dx * half,
      x + dx * depth + dy * half, y + dy * depth - dx * half);
    lens.setAttribute("transform", "translate(" + x.toFixed(2) + " " + y.toFixed(2) + ") rotate(" + row[4].toFixed(1) + ")");
  };

  // ---- Words ---------------------------------------------------------------------------------------------------------

  const wordsNow = find("words-now");
  let spoken = -2, spans = [];
  const speechAt = (ms) => {
    let latest = -1;
    scene.speeches.forEach((speech, i) => {
      if (speech.begin <= ms && (latest < 0 || speech.begin >= scene.speeches[latest].begin)) latest = i;
    });
    return latest;
  };
  const showSpeech = (index) => {
    spoken = index;
    spans = [];
    wordsNow.textContent = "";
    find("who-now").textContent = "";
    if (index < 0) return;
    const speech = scene.speeches[index];
    html("b", find("who-now"), "", scene.people[speech.who].name);
    find("who-now").append((speech.to ? " to " + speech.to : "") + (speech.how ? ", " + speech.how : ""));
    for (const [word] of speech.words) {
      spans.push(html("span", wordsNow, "", word.trimEnd()));
      wordsNow.append(word.slice(word.trimEnd().length));
    }
  };
  const nextWords = () => {
    const mine = only >= 0 ? moves[only] : null;
    if (mine) {
      const next = scene.people[only].moves.findIndex((at) => at > now);
      if (next < 0) return "Nothing more for " + scene.people[only].name;
      return "In " + ((scene.people[only].moves[next] - now) / 1000).toFixed(1) + " s: " +
        mine.children[next].querySelector(".what").textContent;
    }
    const next = scene.speeches.filter((speech) => speech.begin > now).sort((a, b) => a.begin - b.begin)[0];
    return next ? "Then " + scene.people[next.who].name + ", in " + ((next.begin - now) / 1000).toFixed(1) + " s" : "";
  };
  const drawWords = () => {
    const index = speechAt(now);
    if (index !== spoken) showSpeech(index);
    if (index >= 0) {
      scene.speeches[index].words.forEach((word, i) => {
        spans[i].className = now >= word[2] ? "said" : now >= word[1] ? "now-said" : "";
      });
    }
    find("next-now").textContent = nextWords();
  };

  // ---- The eye -------------------------------------------------------------------------------------------------------

  const bars = scene.seen.map((one) => {
    const item = html("li", find("eye"));
    html("span", item, "name", one.name);
    const bar = html("i", html("span", item, "bar"));
    return {item, bar, share: html("span", item, "share"), ever: false};
  });
  scene.eye.forEach((row) => row[3].forEach((share, i) => { if (share) bars[i].ever = true; }));
  bars.forEach((bar) => { bar.item.hidden = !bar.ever; });
  const eyeNow = () => scene.eye[Math.max(0, indexAt(scene.eye, now))] || [0, -1, [], []];
  const drawEye = (eye) => {
    bars.forEach((bar, i) => {
      bar.bar.style.transform = "scaleX(" + (eye[3][i] || 0) / 100 + ")";
      bar.share.textContent = (eye[3][i] || 0) + " %";
      bar.item.className = (eye[1] === i ? "has " : "") + (eye[2].includes(i) ? "asked" : "");
    });
    find("favour-now").textContent = eye[2].length ? "▴ " + eye[2].map((i) => scene.seen[i].name).join(", ") : "";
  };

  // ---- The time line -------------------------------------------------------------------------------------------------

  const line = find("line"), slider = find("at");
  const along = (ms) => (1000 * ms / scene.end).toFixed(2);
  const stroke = (name, from, to, top, bottom) =>
    element("line", {class: name, x1: along(from), x2: along(to), y1: top, y2: bottom}, line);
  stroke("rule", 0, scene.end, 22, 22);
  const here = stroke("here", 0, 0, 22, 22);
  scene.beats.forEach((beat) => stroke("tick", beat.begin, beat.begin, 14, 30));
  stroke("tick", scene.end, scene.end, 14, 30);
  const pins = scene.findings.filter((one) => one.at !== null && !one.waived && one.severity !== "remark");
  pins.sort((a, b) => a.at - b.at);
  pins.forEach((one) => stroke(one.severity, one.at, one.at, 0, 10));
  find("pin").disabled = !pins.length;
  const own = element("g", {}, line);
  slider.max = scene.end;
  const drawLine = () => {
    const beat = scene.beats[beatAt(now)];
    here.setAttribute("x1", along(beat.begin));
    here.setAttribute("x2", along(beat.end));
    slider.value = Math.round(now);
    slider.setAttribute("aria-valuetext", clock(now) + ", beat " + beat.name);
    find("clock").textContent = clock(now);
  };
  const drawBeat = () => {
    const index = beatAt(now);
    if (drawn === index) return;
    drawn = index;
    find("beat-now").textContent = scene.beats[index].name;
    scene.beats.forEach((_, i) => find("ways-" + i).classList.toggle("now", i === index));
  };
  // What was found lately, in words.
  const toldNow = () => {
    const lately = pins.filter((one) => one.at <= now + 50 && now - one.at < 2500).pop();
    const words = lately ? lately.number + " · " + lately.severity + ": " + lately.message.replaceAll("`", "") : "";
    if (find("told").textContent !== words) find("told").textContent = words;
  };

  // ---- Whose moves ---------------------------------------------------------------------------------------------------

  const moves = scene.people.map((_, i) => find("moves-" + i));
  const chips = [-1, ...scene.people.keys()].filter((i) => i < 0 || moves[i]).map((i) => {
    const chip = html("button", find("whose"), "", i < 0 ? "Everyone" : scene.people[i].name);
    chip.type = "button";
    chip.addEventListener("click", () => choose(i));
    return {chip, i};
  });
  const remember = () => {
    try {
      history.replaceState(null, "", "#" + (only >= 0 ? "only=" + only + "&" : "") + "at=" + Math.round(now));
    } catch (refused) { /* a page opened from a mail may have no history */ }
  };
  const choose = (person) => {
    if (only >= 0) find("person-" + only).append(moves[only]);
    only = person;
    chips.forEach(({chip, i}) => chip.setAttribute("aria-pressed", String(i === person)));
    if (person < 0) delete document.body.dataset.only;
    else document.body.dataset.only = person;
    document.querySelectorAll(".said li").forEach((item) =>
      item.classList.toggle("others", person >= 0 && !item.dataset.who.split(" ").includes(String(person))));
    own.textContent = "";
    find("mine").hidden = person < 0;
    if (person >= 0) {
      find("mine").append(moves[person]);
      find("mine").setAttribute("aria-label", "Moves of " + scene.people[person].name);
      scene.people[person].moves.forEach((at) => own.append(stroke("own", at, at, 34, 44)));
    }
    remember();
    draw();
  };
  const drawMine = () => {
    if (only < 0) return;
    const current = indexAt(scene.people[only].moves, now, (at) => at);
    const list = moves[only];
    if (list.children[current] && list.children[current].classList.contains("now-done")) return;
    [...list.children].forEach((item, i) => item.classList.toggle("now-done", i === current));
    if (current >= 0) find("mine").scrollTop = list.children[current].offsetTop - list.offsetTop - 8;
  };

  // ---- Playing -------------------------------------------------------------------------------------------------------

  const draw = () => {
    const places = scene.people.map(placeOf), eye = eyeNow();
    const asked = eye[2].map((i) => scene.seen[i].person).filter((i) => i >= 0);
    drawFrame();
    drawHeads(places, asked);
    drawFigures(places, asked);
    drawThings(places);
    drawCamera();
    drawWords();
    drawEye(eye);
    drawLine();
    drawBeat();
    drawMine();
    toldNow();
  };
  const describe = () => {
    const names = scene.people.filter((person) => { const place = placeOf(person); return place && place.length > 9; });
    gate.setAttribute("aria-label", "The frame at " + clock(now) + ". In it: " +
      (names.map((person) => person.name).join(", ") || "nobody") + ".");
    find("floor").setAttribute("aria-label", "The floor at " + clock(now) + ". " + scene.people.map((person) => {
      const place = placeOf(person);
      return place ? person.name + " at " + place[1].toFixed(2) + ", " + place[2].toFixed(2) + " m" : person.name + " away";
    }).join("; ") + ".");
  };
  let before = 0, step = -1;
  const turn = (time) => {
    if (!playing) return;
    now = Math.min(scene.end, now + (time - before) * speed);
    before = time;
    // Whoever asked for less motion gets it in steps.
    const next = calm.matches ? Math.floor(now / 500) : -1;
    if (next < 0 || next !== step || now >= scene.end) draw();
    step = next;
    if (now >= scene.end) return pause();
    requestAnimationFrame(turn);
  };
  const sign = () => {
    find("play").setAttribute("aria-label", playing ? "Pause" : "Play");
    find("play-shape").setAttribute("d", playing ? "M6 4h4v16H6zM14 4h4v16h-4z" : "M7 4v16l13-8z");
  };
  const pause = () => {
    playing = false;
    sign();
    describe();
    remember();
  };
  const play = () => {
    if (now >= scene.end) now = 0;
    playing = true;
    sign();
    requestAnimationFrame((time) => { before = time; turn(time); });
  };
  const go = (ms) => {
    now = clamp(ms, 0, scene.end);
    draw();
    if (!playing) { describe(); remember(); }
  };
  const beatBefore = () => {
    const index = beatAt(now), begin = scene.beats[index].begin;
    go(now - begin > 800 || !index ? begin : scene.beats[index - 1].begin);
  };
  const beatAfter = () => {
    const next = scene.beats[beatAt(now) + 1];
    go(next ? next.begin : scene.end);
  };
  const nextPin = () => {
    if (!pins.length) return;
    const pin = pins.find((one) => one.at > now + 50) || pins[0];
    go(pin.at);
    find("say").textContent = find("told").textContent;
  };
  const speeds = [1, 1.5, 2, 0.5];
  const nextSpeed = () => {
    speed = speeds[(speeds.indexOf(speed) + 1) % speeds.length];
    find("speed").textContent = (speed === 0.5 ? "½" : speed === 1.5 ? "1½" : speed) + "×";
    find("speed").setAttribute("aria-label", "Speed " + speed + " times");
  };
  const dark = () => {
    const told = document.documentElement.dataset.light;
    return told ? told === "night" : matchMedia("(prefers-color-scheme: dark)").matches;
  };
  const night = (turned) => {
    if (turned) document.documentElement.dataset.light = dark() ? "day" : "night";
    find("night").setAttribute("aria-pressed", String(dark()));
  };
  const toggle = () => (playing ? pause() : play());

  const keys = {
    " ": toggle,
    ArrowLeft: (event) => (event.shiftKey ? beatBefore() : go(now - 1000)),
    ArrowRight: (event) => (event.shiftKey ? beatAfter() : go(now + 1000)),
    Home: () => go(0),
    End: () => go(scene.end),
    f: nextPin,
    0: () => choose(-1),
  };
  scene.people.slice(0, 9).forEach((_, i) => { keys[i + 1] = () => moves[i] && choose(i); });
  document.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey || !Object.hasOwn(keys, event.key)) return;
    if (event.key === " " && event.target.closest("button, a")) return;
    event.preventDefault();
    keys[event.key](event);
  }, {signal: ended.signal});

  // Moments of the still page become ways to them.
  document.querySelectorAll("time.at").forEach((time) => {
    const button = html("button", null, "at", time.textContent);
    button.type = "button";
    button.dataset.at = time.dataset.at;
    button.setAttribute("aria-label", "Go to " + time.textContent);
    button.addEventListener("click", () => {
      go(Number(button.dataset.at));
      if (!button.closest("#mine")) find("player").scrollIntoView({block: "start"});
    });
    time.replaceWith(button);
  });
  find("play").addEventListener("click", toggle);
  find("back").addEventListener("click", beatBefore);
  find("on").addEventListener("click", beatAfter);
  find("pin").addEventListener("click", nextPin);
  find("speed").addEventListener("click", nextSpeed);
  find("night").addEventListener("click", () => night(true));
  slider.addEventListener("input", () => go(Number(slider.value)));

  find("player").hidden = false;
  gate.width = wide;
  gate.height = Math.round(high);
  if (pictures.pngs && !pictures.pngs.length) gate.closest("figure").hidden = true;
  sign();
  night(false);
  const asked = new URLSearchParams(location.hash.slice(1));
  now = clamp(kept ? kept.now : Number(asked.get("at")) || 0, 0, scene.end);
  if (kept) while (speed !== kept.speed) nextSpeed();
  const whose = kept ? scene.people.findIndex((person) => person.name === kept.only) : asked.has("only") ? Number(asked.get("only")) : -1;
  choose(moves[whose] ? whose : -1);
  describe();
  if (kept && kept.playing) play();

  return {
    scene,
    go,
    choose,
    beat: () => beatAt(now),
    kept: () => ({now, playing, speed, only: only < 0 ? "" : scene.people[only].name}),
    showPictures: (drawn) => {
      pictures = drawn;
      gate.closest("figure").hidden = !pictures.showing.length;
      drawFrame();
    },
    end: () => {
      playing = false;
      ended.abort();
    },
  };
};
let player = startPlayer(null);
