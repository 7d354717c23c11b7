// What runs behind a preview: looks at the files, reckons what has changed, draws, and answers browsers.
#pragma once

#include <atomic>
#include <condition_variable>
#include <cstdint>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <thread>
#include <vector>

#include "cli/pipeline.h"
#include "server/board.h"
#include "server/door.h"
#include "server/listener.h"
#include "server/watched.h"

namespace lensward {

class Previewing : public Audience {
 public:
  // A scene, a film or a folder of scenes. The host must outlive it. Begins to reckon at once.
  Previewing(std::string path, Host& host);
  ~Previewing() override;
  Previewing(const Previewing&) = delete;
  Previewing& operator=(const Previewing&) = delete;

  // Before anybody asks.
  void open(Door door) { door_ = std::move(door); }

  // Looks at the files; meant to be called every 25 ms.
  void look();
  // A sign of life to all who listen.
  void breathe();
  // Ends all waiting and working.
  void end();

  Reply answer(const Request& request) override;
  std::optional<std::string> news(std::int64_t& seen) override;

 private:
  using Unwanted = std::shared_ptr<std::atomic<bool>>;

  struct Scene {
    std::string path;
    std::shared_ptr<const Answers> answers;  // it was made from these; null: being read, or about to be
    Settling settling;
    bool stale = true;
    std::string key;   // everything that counts for it, as it was when it was reckoned
    std::string text;  // its own file, as last read
    std::string findings = "not read yet";
  };
  // To be drawn, of one plan.
  struct Drawing {
    std::shared_ptr<const Plan> plan;
    double ratio = 0;
    std::vector<Moment> playing, beats;
    Moment first;  // the nearest to this come first
    Unwanted unwanted;
  };
  // What is being reckoned.
  struct Work {
    std::string path;
    bool shown = false;
    Unwanted unwanted;
    int beat = -1;         // that was edited
    std::string stand_in;  // id of the frame drawn first
  };

  void list_scenes();
  void look_at_list();
  void changed(Scene& scene, std::size_t index, const Answers& now);

  void work();
  std::optional<Work> next_work();
  void reckon(Work work);
  bool is_known(const Work& work, const Run& run, int file, const Answers& answers);
  void reached(Work& work, const Run& run, Until until);
  void show_page(const Work& work, const Run& run, const Findings& findings, const std::string& stage);
  void show_first_frame(Work& work, const Run& run);
  void wish_pictures(const Work& work, const Run& run);
  void refuse(const Work& work, const std::string& headline, const Run& run);
  void finish(const Work& work, const Run& run, int file);
  void tell_scenes();
  void stop_drawing();

  void draw();
  void draw_all(const Drawing& drawing);

  // Does something with the board, unless nobody wants it any more; then tells everybody.
  template <class Change>
  bool tell(const Work& work, Change change);

  const std::string path_;
  Host& host_;
  Door door_;

  std::mutex mutex_;
  std::condition_variable heard_, worked_;  // by those who listen; by the threads that work
  Board board_;
  bool over_ = false, is_folder_ = false;
  std::int64_t life_ = 0;
  std::vector<Scene> scenes_;
  std::shared_ptr<const Answers> list_answers_;
  Settling list_settling_;
  std::size_t shown_ = 0;
  std::string on_board_;  // the path of the scene that the board shows
  std::optional<Work> working_;
  std::optional<Drawing> to_draw_;
  std::shared_ptr<BeatsKnown> known_ = std::make_shared<BeatsKnown>();
  Unwanted drawing_;  // what was last given to be drawn
  std::int64_t looks_ = 0;

  std::thread worker_, draughtsman_;
};

}  // namespace lensward
