#include "cli/previewing.h"

#include <algorithm>
#include <set>
#include <utility>

#include "cli/commands.h"
#include "live/page.h"
#include "live/pictures.h"
#include "plan/follow.h"
#include "report/text.h"
#include "server/edited.h"

namespace lensward {
namespace {

// Larger files are looked at less often: once in so many looks.
constexpr std::size_t large = 1 << 20;
constexpr std::int64_t looks_for_large = 20;
// Pictures drawn between two times that it is told.
constexpr std::size_t pictures_a_telling = 8;
// But the first ones each at once: they are of the beat that is being written.
constexpr std::size_t pictures_told_singly = 2;

Answers listed_in(Host& host, const std::string& path, std::vector<std::string>& scenes) {
  RememberingHost remembering(host);
  const auto names = remembering.names_in(path);
  if (!names) {
    scenes.push_back(path);
    return remembering.answers();
  }
  const std::string folder = path.ends_with('/') ? path : path + '/';
  if (remembering.canonical(folder + "film.staging")) {
    Run run;
    const auto film = read_file(remembering, path, run);
    if (const int* index = std::get_if<int>(&film)) {
      for (const int scene : run.gathered.files[static_cast<std::size_t>(*index)].scenes)
        if (scene >= 0)
          scenes.push_back(run.sources.file(run.gathered.files[static_cast<std::size_t>(scene)].tree.file).name());
    }
    return remembering.answers();
  }
  for (const std::string& name : *names)
    if (name.ends_with(".staging")) scenes.push_back(folder + name);
  return remembering.answers();
}

// Whatever the scene is reckoned from.
std::string key_of(const Run& run, int file) {
  const auto& files = run.gathered.files;
  std::set<int> counted;
  for (const int one : files_for(run.gathered, file)) counted.insert(one);
  const GatheredFile& own = files[static_cast<std::size_t>(file)];
  if (following_opening(own.script) != nullptr)
    for (int i = 0; i < static_cast<int>(files.size()); ++i) counted.insert(i);
  std::string key;
  for (const int one : counted) {
    const SourceFile& source = run.sources.file(files[static_cast<std::size_t>(one)].tree.file);
    key += source.name() + '\0' + std::to_string(source.bytes().size()) + '\0' + std::string(source.bytes());
  }
  return key;
}

std::vector<std::uint32_t> headings_of(const Run& run) {
  std::vector<std::uint32_t> begins;
  for (const Beat& beat : run.plan.beats)
    if (beat.heading.file == run.tree.file) begins.push_back(beat.heading.begin);
  return begins;
}

// The worst first, as they stand in the text.
std::vector<BoardFinding> troubles_of(const Run& run) {
  std::vector<BoardFinding> troubles;
  for (const Severity severity : {Severity::error, Severity::warning})
    for (const Finding& finding : run.findings.all()) {
      if (finding.severity != severity || finding.waived_because) continue;
      const SourceFile& file = run.sources.file(finding.where.file);
      const int line = file.position(finding.where.begin).line;
      constexpr std::size_t longest = 300;
      std::string text(file.line_text(line).substr(0, longest));
      troubles.push_back({finding.message, finding.next_step, file.name(), std::move(text), line});
    }
  return troubles;
}

std::string counts_of(const Run& run, std::int32_t own) {
  Findings findings;
  for (const Finding& finding : run.findings.all())
    if (finding.where.file == own) findings.add(finding);
  const std::string words = counts_in_words(run.sources, findings);
  return words.substr(0, words.find(';'));
}

Reply stream_of_news() {
  Reply reply;
  reply.stream = true;
  return reply;
}

bool can_be_staged(const Run& run) {
  return run.has_scene() && !run.plan.beats.empty() && run.plan.duration().count > 0;
}

Moment decided_in(const Run& run, int beat) {
  return deciding_moment(run.results(), std::clamp(beat, 0, static_cast<int>(run.plan.beats.size()) - 1));
}

}  // namespace

Previewing::Previewing(std::string path, Host& host) : path_(std::move(path)), host_(host) {
  list_scenes();
  if (scenes_.empty()) throw CannotRun("there is no staging file in " + path_);
  Run nothing;
  board_.show({preview_page_of(nothing.results()), "reading", -1});
  tell_scenes();
  worker_ = std::thread([this] { work(); });
  draughtsman_ = std::thread([this] { draw(); });
}

Previewing::~Previewing() {
  end();
  worker_.join();
  draughtsman_.join();
}

void Previewing::end() {
  const std::lock_guard lock(mutex_);
  over_ = true;
  if (working_) working_->unwanted->store(true);
  heard_.notify_all();
  worked_.notify_all();
}

void Previewing::breathe() {
  const std::lock_guard lock(mutex_);
  ++life_;
  heard_.notify_all();
}

// ---- Looking at files ----------------------------------------------------------------------------------------------

// Scenes that were there stay as they are. Requires the lock, or nobody else.
void Previewing::list_scenes() {
  std::vector<std::string> paths;
  list_answers_ = std::make_shared<const Answers>(listed_in(host_, path_, paths));
  is_folder_ = host_.names_in(path_).has_value();
  // Scenes that are gone: what is shown stays, and says so.
  if (paths.empty()) return;
  const std::string shown = scenes_.empty() ? "" : scenes_[shown_].path;
  std::vector<Scene> scenes;
  for (const std::string& path : paths) {
    const auto before = std::ranges::find(scenes_, path, &Scene::path);
    scenes.push_back(before == scenes_.end() ? Scene{} : std::move(*before));
    scenes.back().path = path;
  }
  const bool same = scenes.size() == scenes_.size();
  scenes_ = std::move(scenes);
  const auto still = std::ranges::find(scenes_, shown, &Scene::path);
  shown_ = still == scenes_.end() ? 0 : static_cast<std::size_t>(still - scenes_.begin());
  if (!same && working_) working_->unwanted->store(true);
}

void Previewing::look_at_list() {
  if (!is_folder_) return;
  const Answers now = asked_again(*list_answers_, host_);
  const std::lock_guard lock(mutex_);
  if (!list_settling_.look(*list_answers_, now)) return;
  list_scenes();
  worked_.notify_all();
}

void Previewing::changed(Scene& scene, std::size_t index, const Answers& now) {
  const auto own = [&](const Answers& answers) -> const FileAnswer* {
    const auto file = answers.files.find(scene.path);
    return file == answers.files.end() ? nullptr : &file->second;
  };
  const auto *before = own(*scene.answers), *after = own(now);
  const bool own_changed = before == nullptr || after == nullptr || *before != *after;
  if (own_changed) shown_ = index;
  scene.answers = nullptr;
  scene.stale = true;
  if (working_ && (working_->path == scene.path || own_changed)) working_->unwanted->store(true);
  worked_.notify_all();
}

void Previewing::look() {
  ++looks_;
  std::vector<std::pair<std::string, std::shared_ptr<const Answers>>> made_from;
  {
    const std::lock_guard lock(mutex_);
    for (const Scene& scene : scenes_)
      if (scene.answers) made_from.emplace_back(scene.path, scene.answers);
  }
  Answers all;
  for (const auto& [_, answers] : made_from) add_answers(*answers, all);
  if (size_of(all) > large && looks_ % looks_for_large != 0) return;
  const Answers now = asked_again(all, host_);
  {
    const std::lock_guard lock(mutex_);
    for (std::size_t i = 0; i < scenes_.size(); ++i) {
      const auto same = std::ranges::find(made_from, scenes_[i].path, [](const auto& one) { return one.first; });
      if (same == made_from.end() || same->second != scenes_[i].answers) continue;
      const Answers part = part_of(now, *scenes_[i].answers);
      if (scenes_[i].settling.look(*scenes_[i].answers, part)) changed(scenes_[i], i, part);
    }
  }
  look_at_list();
}

// ---- Reckoning -----------------------------------------------------------------------------------------------------

void Previewing::work() {
  while (const auto next = next_work()) {
    reckon(*next);
    const std::lock_guard lock(mutex_);
    working_.reset();
    const auto scene = std::ranges::find(scenes_, next->path, &Scene::path);
    // What was given up is taken up again.
    if (next->unwanted->load() && scene != scenes_.end()) scene->stale = true;
  }
}

// The shown one first.
std::optional<Previewing::Work> Previewing::next_work() {
  std::unique_lock lock(mutex_);
  std::size_t next = 0;
  const auto found = [&] {
    const auto stale = std::ranges::find(scenes_, true, &Scene::stale);
    next = scenes_[shown_].stale ? shown_ : static_cast<std::size_t>(stale - scenes_.begin());
    return next < scenes_.size();
  };
  worked_.wait(lock, [&] { return over_ || found() || on_board_ != scenes_[shown_].path; });
  if (over_) return std::nullopt;
  // Shown anew, though nothing of it has changed.
  if (next >= scenes_.size()) next = shown_;
  Work work{scenes_[next].path, next == shown_, std::make_shared<std::atomic<bool>>(false), -1, ""};
  scenes_[next].stale = false;
  scenes_[next].answers = nullptr;
  working_ = work;
  return work;
}

template <class Change>
bool Previewing::tell(const Work& work, Change change) {
  const std::lock_guard lock(mutex_);
  if (work.unwanted->load() || over_) return false;
  change();
  heard_.notify_all();
  return true;
}

// Whether nothing that counts for the scene has changed since it was reckoned. Requires what was read.
bool Previewing::is_known(const Work& work, const Run& run, int file, const Answers& answers) {
  const std::string key = file < 0 ? "" : key_of(run, file);
  const std::lock_guard lock(mutex_);
  const auto scene = std::ranges::find(scenes_, work.path, &Scene::path);
  if (scene == scenes_.end()) return true;
  scene->answers = std::make_shared<const Answers>(answers);
  scene->settling = {};
  const bool known = file >= 0 && scene->key == key && (!work.shown || on_board_ == work.path);
  if (!known) scene->key.clear();
  return known;
}

void Previewing::reckon(Work work) {
  RememberingHost remembering(host_);
  Run run;
  run.known = known_;
  run.unwanted = [unwanted = work.unwanted] { return unwanted->load(); };
  const auto file = read_file(remembering, work.path, run);
  const int* index = std::get_if<int>(&file);
  if (is_known(work, run, index == nullptr ? -1 : *index, remembering.answers())) return;
  if (work.shown)
    tell(work, [&] {
      board_.begin_edit();
      stop_drawing();
    });
  if (index == nullptr)
    return refuse(work, "`" + work.path + "` cannot be read: " + std::get<HostError>(file).reason, run);
  if (run.is_film(*index)) return refuse(work, "`" + work.path + "` is a film now, and no scene", run);
  bool planned = false;
  if (work.shown) {
    run.reached = [&](const Run& so_far, Until until) {
      planned = planned || can_be_staged(so_far);
      if (planned) reached(work, so_far, until);
    };
    run.ahead = [&](const Run& so_far, const Findings& findings) {
      if (!planned) return;
      Findings sorted = findings;
      sort_findings(sorted);
      show_page(work, so_far, sorted, "looking further for findings");
    };
  }
  compile(*index, Until::rules, run);
  if (!run.is_unwanted()) finish(work, run, *index);
}

void Previewing::reached(Work& work, const Run& run, Until until) {
  if (run.is_unwanted()) return;
  if (until == Until::verdicts) return wish_pictures(work, run);
  {
    const std::lock_guard lock(mutex_);
    const auto scene = std::ranges::find(scenes_, work.path, &Scene::path);
    if (scene == scenes_.end()) return;
    const std::string text(run.sources.file(run.tree.file).bytes());
    if (on_board_ == work.path) work.beat = edited_beat(scene->text, text, headings_of(run));
    scene->text = text;
  }
  Findings sorted = run.findings;
  sort_findings(sorted);
  show_page(work, run, sorted, "reckoning who has the eye");
  show_first_frame(work, run);
}

void Previewing::show_page(const Work& work, const Run& run, const Findings& findings, const std::string& stage) {
  if (run.is_unwanted()) return;
  std::string page = preview_page_of({run.sources, run.plan, run.attention, run.verdicts, findings});
  tell(work, [&] {
    board_.show({std::move(page), stage, work.beat});
    on_board_ = work.path;
  });
}

// Of the beat that was edited, at the moment that stands for it; it stands in for the beat until the rest is drawn.
void Previewing::show_first_frame(Work& work, const Run& run) {
  if (run.is_unwanted() || run.plan.stage.cameras.empty()) return;
  const Beat& beat = run.plan.beats[static_cast<std::size_t>(std::max(0, work.beat))];
  const std::string png = picture_at(run.plan, decided_in(run, work.beat), picture_ratio(run.plan), play_width);
  tell(work, [&] {
    std::vector<PictureWish> wishes{{beat.begin.count, ""}};
    if (beat.begin.count > 0) wishes.insert(wishes.begin(), {0, ""});
    if (beat.end < run.plan.duration()) wishes.push_back({beat.end.count, ""});
    board_.wish(std::move(wishes), run.plan.beats.size());
    work.stand_in = board_.drawn(beat.begin.count > 0 ? 1 : 0, png);
    board_.tell_pictures();
  });
}

void Previewing::wish_pictures(const Work& work, const Run& run) {
  if (run.plan.stage.cameras.empty()) return;
  Drawing drawing;
  drawing.plan = std::make_shared<const Plan>(run.plan);
  drawing.ratio = picture_ratio(run.plan);
  drawing.playing = picture_moments(run.results(), most_pictures);
  for (int i = 0; i < static_cast<int>(run.plan.beats.size()); ++i) drawing.beats.push_back(decided_in(run, i));
  drawing.first = decided_in(run, work.beat);
  drawing.unwanted = std::make_shared<std::atomic<bool>>(false);
  const Beat& beat = run.plan.beats[static_cast<std::size_t>(std::max(0, work.beat))];
  tell(work, [&] {
    std::vector<PictureWish> wishes;
    for (const Moment at : drawing.playing)
      wishes.push_back({at.count, beat.begin <= at && at < beat.end ? work.stand_in : ""});
    board_.wish(std::move(wishes), drawing.beats.size());
    board_.tell_pictures();
    drawing_ = drawing.unwanted;
    to_draw_ = std::move(drawing);
    worked_.notify_all();
  });
}

void Previewing::refuse(const Work& work, const std::string& headline, const Run& run) {
  tell(work, [&] {
    const auto scene = std::ranges::find(scenes_, work.path, &Scene::path);
    if (scene != scenes_.end()) scene->findings = "cannot be staged";
    tell_scenes();
    if (!work.shown) return;
    board_.show_trouble(headline, troubles_of(run));
    on_board_ = work.path;
    lensward::tell("lensward: " + headline);
  });
}

void Previewing::finish(const Work& work, const Run& run, int file) {
  if (!can_be_staged(run)) {
    const std::string counts = counts_in_words(run.sources, run.findings);
    return refuse(work,
                  run.has_scene() ? "`" + work.path + "` cannot be staged as it is: " + counts
                                  : "there is no scene in `" + work.path + "`: " + counts,
                  run);
  }
  const std::string counts = counts_of(run, run.tree.file);
  if (work.shown) show_page(work, run, run.findings, "");
  tell(work, [&] {
    const auto scene = std::ranges::find(scenes_, work.path, &Scene::path);
    if (scene == scenes_.end()) return;
    scene->findings = counts;
    scene->key = key_of(run, file);
    tell_scenes();
    if (work.shown) lensward::tell("lensward: " + work.path + ": " + counts_in_words(run.sources, run.findings));
  });
}

// Requires the lock.
void Previewing::tell_scenes() {
  if (!is_folder_) return;
  std::vector<SceneTold> told;
  for (std::size_t i = 0; i < scenes_.size(); ++i) told.push_back({scenes_[i].path, scenes_[i].findings, i == shown_});
  board_.show_scenes(std::move(told));
}

// What was wished for an older text. Requires the lock.
void Previewing::stop_drawing() {
  if (drawing_) drawing_->store(true);
  to_draw_.reset();
}

// ---- Drawing -------------------------------------------------------------------------------------------------------

void Previewing::draw() {
  while (true) {
    Drawing next;
    {
      std::unique_lock lock(mutex_);
      worked_.wait(lock, [&] { return over_ || to_draw_; });
      if (over_) return;
      next = std::move(*to_draw_);
      to_draw_.reset();
    }
    draw_all(next);
  }
}

// The nearest to the beat that was edited first, for the player, and the beat's own as its turn comes.
void Previewing::draw_all(const Drawing& drawing) {
  struct Turn {
    std::int64_t far;
    bool still;
    std::size_t index;
    Moment at;
  };
  std::vector<Turn> turns;
  const auto far = [&](Moment at) { return std::abs((at - drawing.first).count); };
  for (std::size_t i = 0; i < drawing.playing.size(); ++i)
    turns.push_back({far(drawing.playing[i]), false, i, drawing.playing[i]});
  for (std::size_t i = 0; i < drawing.beats.size(); ++i)
    turns.push_back({far(drawing.beats[i]), true, i, drawing.beats[i]});
  std::ranges::stable_sort(turns, {}, &Turn::far);
  std::size_t untold = 0, done = 0;
  for (const Turn& turn : turns) {
    if (drawing.unwanted->load()) return;
    std::string png = picture_at(*drawing.plan, turn.at, drawing.ratio, turn.still ? still_width : play_width);
    const std::lock_guard lock(mutex_);
    if (drawing.unwanted->load() || over_) return;
    if (turn.still)
      board_.drawn_for_beat(turn.index, std::move(png));
    else
      board_.drawn(turn.index, std::move(png));
    ++done;
    ++untold;
    if (done > pictures_told_singly && untold < pictures_a_telling && done < turns.size()) continue;
    board_.tell_pictures();
    untold = 0;
    heard_.notify_all();
  }
}

// ---- Answering -----------------------------------------------------------------------------------------------------

Reply Previewing::answer(const Request& request) {
  const auto words = [](std::string text) { return std::make_shared<const std::string>(std::move(text)); };
  if (const auto refusal = door_.refuses(request)) return {refusal->status, Reply{}.type, words(refusal->words)};
  const std::string asked = door_.asked(request);
  const std::lock_guard lock(mutex_);
  if (asked.empty() || asked == "page") return {200, "text/html; charset=utf-8", board_.page()};
  if (asked == "events") return stream_of_news();
  if (asked == "pictures.json") return {200, "application/json", words(board_.pictures_json())};
  if (asked.starts_with("pictures/") && asked.ends_with(".png")) {
    constexpr std::size_t before = 9, after = 4;
    if (const Bytes png = board_.picture(asked.substr(before, asked.size() - before - after)))
      return {200, "image/png", png, true};
  }
  return {404, Reply{}.type, words("There is nothing here by that name.\n")};
}

std::optional<std::string> Previewing::news(std::int64_t& seen) {
  std::unique_lock lock(mutex_);
  const std::int64_t life = life_;
  heard_.wait(lock, [&] { return over_ || board_.version() > seen || life_ != life; });
  if (over_) return std::nullopt;
  if (board_.version() <= seen) return std::string();
  seen = board_.version();
  return board_.news();
}

}  // namespace lensward
