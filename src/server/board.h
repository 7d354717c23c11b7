// What those who look at the preview are told: the last scene that could be staged, what is wrong with the text since,
// which pictures are drawn. A value without threads, sockets or clocks.
#pragma once

#include <cstdint>
#include <map>
#include <memory>
#include <set>
#include <string>
#include <vector>

namespace lensward {

using Bytes = std::shared_ptr<const std::string>;

// Something wrong with a text, with the line it stands in when there is one.
struct BoardFinding {
  std::string message, next_step;
  std::string file, text;
  int line = 0;  // 0: no line
};

// A scene of a folder. `findings` in words: "2 errors, 1 warning", "not read yet".
struct SceneTold {
  std::string name, findings;
  bool shown = false;
};

// What plays of one text, at some stage of the reckoning.
struct PageTold {
  std::string html;
  std::string stage;  // what is still being reckoned, in words; empty: nothing
  int beat = -1;      // that was edited; -1: none in particular
};

// The pictures that a page wants, in the order of the scene; the moment is in ms from its start.
struct PictureWish {
  std::int64_t from = 0;
  std::string id;  // of what is drawn; empty: not drawn yet
};

class Board {
 public:
  // Another text is being read; returns its number, 1 and up. It may yet prove to be one that cannot be staged.
  std::int64_t begin_edit() { return ++edits_; }

  // Of the text begun last. Pictures that older pages had stay until new ones are wished for.
  void show(PageTold page);
  // It cannot be staged: the last page stays, out of date, with what is wrong. Without a page yet there is only that.
  void show_trouble(std::string headline, std::vector<BoardFinding> trouble);
  void show_scenes(std::vector<SceneTold> scenes);
  // Those of the page shown, for the moments of the scene and for each of its beats.
  void wish(std::vector<PictureWish> playing, std::size_t beats);
  // A picture of the wishes is drawn. Returns its id, which is the same for the same bytes.
  std::string drawn(std::size_t playing_index, std::string png);
  std::string drawn_for_beat(std::size_t beat, std::string png);
  // Tells of the pictures drawn since; drawing alone tells nobody.
  void tell_pictures();

  // Goes up with everything that is told.
  std::int64_t version() const { return version_; }
  const Bytes& page() const { return page_; }
  Bytes picture(const std::string& id) const;
  std::size_t picture_count() const { return pictures_.size(); }

  // {"version", "page", "pictures", "read": numbers that go up, "read" with every text; "edits": the text that the page
  // is of; "beat": that was edited, or -1; "stale": the text cannot be staged; "headline", "trouble", "stage",
  // "scenes"}.
  std::string news() const;
  // {"showing": [[ms, index or -1]…], "addresses": […], "beats": [address or ""…]}, as page.js takes them.
  std::string pictures_json() const;

 private:
  std::string keep(std::string png);
  void drop_unused();

  std::int64_t version_ = 0, edits_ = 0, page_version_ = 0, pictures_version_ = 0;
  std::int64_t page_edit_ = 0;
  Bytes page_;
  std::string stage_;
  int beat_ = -1;
  bool stale_ = false;
  std::string headline_;
  std::vector<BoardFinding> trouble_;
  std::vector<SceneTold> scenes_;
  std::map<std::string, Bytes> pictures_;
  std::vector<PictureWish> playing_;
  std::vector<std::string> beats_;  // ids
  // Ids of wishes that this text and the one before have replaced: somebody may still be fetching them.
  std::set<std::string> earlier_, long_ago_;
  std::int64_t wished_edit_ = 0;
};

}  // namespace lensward
