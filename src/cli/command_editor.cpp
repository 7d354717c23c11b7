// The language server: its streams and threads. What it says is the desk's.
#include <poll.h>
#include <unistd.h>

#include <cerrno>
#include <deque>
#include <functional>
#include <mutex>
#include <thread>

#include "cli/commands.h"
#include "cli/line_text.h"
#include "cli/rehearsing.h"
#include "editor/desk.h"
#include "editor/frames.h"
#include "mend/mend.h"
#include "mend/mend_text.h"

namespace lensward {
namespace {

// Whoever types goes on within this time, milliseconds; so long nothing is begun that takes both cores.
constexpr int pause_in_typing = 10;

// ---- What is worked out -------------------------------------------------------------------------------------------

class CompiledRun : public Compiled {
 public:
  explicit CompiledRun(Run run) : run_(std::move(run)) {}
  explicit CompiledRun(std::string trouble) : trouble_(std::move(trouble)) {}

  const SourceSet& sources() const override { return run_.sources; }
  const Gathered& gathered() const override { return run_.gathered; }
  const Findings& findings() const override { return run_.findings; }
  const Plan& plan() const override { return run_.plan; }
  std::int32_t own() const override { return trouble_.empty() ? run_.tree.file : -1; }
  const std::string& trouble() const override { return trouble_; }
  std::string told_of(int line) const override { return line_text(run_, line); }

 private:
  Run run_;
  std::string trouble_;
};

using KnownBeats = std::shared_ptr<BeatsKnown>;

Run run_for(const Work& work, const KnownBeats& known) {
  Run run;
  run.known = known;
  run.unwanted = [unwanted = work.unwanted] { return unwanted->load(); };
  return run;
}

using TellAhead = std::function<void(std::vector<Told>)>;

CompiledFile compiled_file(const Work& work, Until until, Host& host, const KnownBeats& known,
                           const TellAhead& tell_ahead) {
  StandInHost files(host, work.texts);
  Run run = run_for(work, known);
  const auto file = read_file(files, work.path, run);
  if (const auto* error = std::get_if<HostError>(&file)) return std::make_shared<CompiledRun>(error->reason);
  const int own = std::get<int>(file);
  if (run.is_film(own) && until == Until::rules) compile_film(own, run);
  if (!run.is_film(own) && until == Until::rules) {
    run.ahead = [&](const Run& so_far, const Findings& found) {
      tell_ahead(told_of(found, so_far.gathered, so_far.tree.file, work.known_as));
    };
  }
  // After the scenes of a film: what stands in the run is of the file that is open.
  compile(own, until, run);
  run.attention = {};
  run.script = {};
  run.unwanted = nullptr;
  run.ahead = nullptr;
  return std::make_shared<CompiledRun>(std::move(run));
}

std::string title_of(const Finding& finding, const WayOut& way) {
  std::string title;
  for (const LineTyped& line : way.lines) title += (title.empty() ? "" : ", and ") + typed_words(line);
  return title + " (" + gain_of_way(finding, way) + ')';
}

std::vector<WayFound> ways_found(const WaysWork& asked, Host& host, const KnownBeats& known) {
  const Work& work = asked.work;
  StandInHost files(host, work.texts);
  Run run = run_for(work, known);
  const auto file = read_file(files, work.path, run);
  if (!std::holds_alternative<int>(file) || run.is_film(std::get<int>(file))) return {};
  compile(std::get<int>(file), Until::places, run);
  if (run.is_unwanted() || !run.has_scene()) return {};
  const Rehearsal scene = rehearsal_of(std::move(run));
  const std::string known_as = files.canonical(work.path).value_or(work.path);
  const Rehearse rehearse = [&](const std::string& text, Depth depth) {
    // Nobody waits any more: what changes nothing mends nothing.
    if (work.unwanted->load()) return Rehearsal(scene);
    StandIns texts = work.texts;
    texts[known_as] = std::make_shared<const std::string>(text);
    StandInHost edited(host, std::move(texts));
    Run again;
    again.known = known;
    const auto read = read_file(edited, work.path, again);
    if (!std::holds_alternative<int>(read)) return Rehearsal(scene);
    compile(std::get<int>(read), until_of(depth), again);
    return rehearsal_of(std::move(again));
  };
  const bool one_line = asked.first_line == asked.last_line;
  const auto wanted = [&](const Finding& finding) {
    const int line = scene.sources.begin_of(finding.where).line;
    // Of many lines at once the remarks would keep both cores busy for minutes.
    return asked.first_line <= line && line <= asked.last_line && (one_line || finding.severity != Severity::remark);
  };
  std::vector<WayFound> found;
  for (const Trouble& trouble : mend(scene, rehearse, wanted)) {
    const Finding& finding = scene.findings.all()[static_cast<std::size_t>(trouble.finding)];
    for (const WayOut& way : trouble.ways) found.push_back({title_of(finding, way), way.edits});
  }
  return found;
}

// ---- Threads ------------------------------------------------------------------------------------------------------

// What threads hand back to the one that runs the desk, which a byte in a pipe wakes.
class HandedBack {
 public:
  HandedBack() {
    if (::pipe(pipe_) != 0) throw CannotRun("the system gives no pipe");
  }
  ~HandedBack() {
    ::close(pipe_[0]);
    ::close(pipe_[1]);
  }
  HandedBack(const HandedBack&) = delete;
  HandedBack& operator=(const HandedBack&) = delete;

  int wakes() const { return pipe_[0]; }
  void add(std::function<void()> result) {
    const std::lock_guard lock(mutex_);
    results_.push_back(std::move(result));
    const char byte = 0;
    while (::write(pipe_[1], &byte, 1) < 0 && errno == EINTR) {
    }
  }
  // Requires that it woke.
  void take_one() {
    char byte = 0;
    while (::read(pipe_[0], &byte, 1) < 0 && errno == EINTR) {
    }
    std::function<void()> result;
    {
      const std::lock_guard lock(mutex_);
      result = std::move(results_.front());
      results_.pop_front();
    }
    result();
  }

 private:
  int pipe_[2] = {-1, -1};
  std::mutex mutex_;
  std::deque<std::function<void()>> results_;
};

// Does one thing at a time beside the desk.
class Worker {
 public:
  explicit Worker(HandedBack& back) : back_(back) {}
  ~Worker() {
    if (thread_.joinable()) thread_.join();
  }
  Worker(const Worker&) = delete;
  Worker& operator=(const Worker&) = delete;

  bool idle() const { return idle_; }
  // `work` runs on a thread, what it returns is then run on the desk's. Requires an idle worker.
  void begin(const std::function<std::function<void()>()>& work) {
    if (thread_.joinable()) thread_.join();
    idle_ = false;
    thread_ = std::thread([this, work] {
      std::function<void()> result = work();
      back_.add([this, result = std::move(result)] {
        idle_ = true;
        result();
      });
    });
  }

 private:
  HandedBack& back_;
  bool idle_ = true;
  std::thread thread_;
};

// ---- The server ---------------------------------------------------------------------------------------------------

class Server {
 public:
  explicit Server(Surroundings& around) : around_(around), desk_(around.host, LENSWARD_VERSION) {}

  int run() {
    while (!desk_.over()) {
      pollfd ears[] = {{STDIN_FILENO, POLLIN, 0}, {back_.wakes(), POLLIN, 0}};
      const int heard = ::poll(ears, 2, can_begin_work() ? pause_in_typing : -1);
      if (heard < 0 && errno != EINTR) throw CannotRun("standard input cannot be waited for");
      if (heard > 0 && ears[1].revents != 0) back_.take_one();
      // An editor that is gone asks for nothing, not even to exit.
      if (heard > 0 && ears[0].revents != 0 && !listen()) break;
      if (heard == 0) begin_work();
      speak();
    }
    desk_.give_up();
    return desk_.over() ? desk_.exit_status() : 1;
  }

 private:
  bool listen() {
    char part[65536];
    const ssize_t got = ::read(STDIN_FILENO, part, sizeof part);
    if (got < 0 && errno == EINTR) return true;
    if (got <= 0) return false;
    frames_.add({part, static_cast<std::size_t>(got)});
    while (const auto frame = frames_.next()) {
      if (frame->malformed.empty()) {
        desk_.take(frame->message);
      } else {
        desk_.take_malformed(frame->malformed);
      }
      if (desk_.over()) break;
    }
    return true;
  }

  bool can_begin_work() const {
    return (early_.idle() && desk_.wants_early()) || (check_.idle() && desk_.wants_check()) ||
           (ways_.idle() && desk_.wants_ways());
  }

  void begin_work() {
    if (early_.idle()) {
      if (const auto work = desk_.next_early()) begin_early(*work);
    }
    if (check_.idle()) {
      if (const auto work = desk_.next_check()) begin_check(*work);
    }
    if (ways_.idle()) {
      if (const auto work = desk_.next_ways()) begin_ways(*work);
    }
  }

  void begin_early(const Work& work) {
    early_.begin([this, work]() -> std::function<void()> {
      const CompiledFile made = compiled_file(work, Until::plan, around_.host, known_, {});
      return [this, work, told = told_of(*made, work.known_as)] { desk_.take_ahead(work, Ahead::text, told); };
    });
  }

  void begin_check(const Work& work) {
    check_.begin([this, work]() -> std::function<void()> {
      const CompiledFile made = compiled_file(work, Until::rules, around_.host, known_, [&](std::vector<Told> told) {
        back_.add([this, work, told = std::move(told)] { desk_.take_ahead(work, Ahead::marks, told); });
      });
      return [this, work, made] { desk_.take_checked(work, made); };
    });
  }

  void begin_ways(const WaysWork& work) {
    ways_.begin([this, work]() -> std::function<void()> {
      const std::vector<WayFound> found = ways_found(work, around_.host, known_);
      return [this, work, found] { desk_.take_ways(work, found); };
    });
  }

  void speak() {
    for (const JsonValue& message : desk_.to_send())
      put("-", framed(message.dump(-1, ' ', false, JsonValue::error_handler_t::replace)), around_);
  }

  Surroundings& around_;
  Desk desk_;
  FrameReader frames_;
  KnownBeats known_ = std::make_shared<BeatsKnown>();
  HandedBack back_;
  Worker early_{back_}, check_{back_}, ways_{back_};
};

}  // namespace

int command_editor(Surroundings& around) { return Server(around).run(); }

}  // namespace lensward
