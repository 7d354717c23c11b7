#include "server/board.h"

#include <fmt/core.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <string_view>
#include <utility>

namespace lensward {
namespace {

using Json = nlohmann::ordered_json;

// More would not be read; the first ones are the causes.
constexpr std::size_t most_trouble = 12;

// FNV-1a, 64 bits.
std::string id_of(std::string_view bytes) {
  std::uint64_t hash = 14695981039346656037U;
  for (const char c : bytes) hash = (hash ^ static_cast<unsigned char>(c)) * 1099511628211U;
  return fmt::format("{:016x}", hash);
}

std::string address_of(const std::string& id) { return id.empty() ? "" : "pictures/" + id + ".png"; }

Json trouble_json(const BoardFinding& one) {
  Json where = nullptr;
  if (one.line > 0) where = {{"file", one.file}, {"line", one.line}, {"text", one.text}};
  return {{"message", one.message}, {"next", one.next_step}, {"where", where}};
}

std::string text_of(const Json& json) { return json.dump(-1, ' ', false, Json::error_handler_t::replace); }

}  // namespace

void Board::show(PageTold page) {
  page_ = std::make_shared<const std::string>(std::move(page.html));
  stage_ = std::move(page.stage);
  beat_ = page.beat;
  stale_ = false;
  headline_.clear();
  trouble_.clear();
  page_edit_ = edits_;
  page_version_ = ++version_;
}

void Board::show_trouble(std::string headline, std::vector<BoardFinding> trouble) {
  stale_ = true;
  headline_ = std::move(headline);
  const std::size_t left_out = trouble.size() - std::min(trouble.size(), most_trouble);
  trouble.resize(trouble.size() - left_out);
  if (left_out > 0) trouble.push_back({fmt::format("and {} more", left_out), "", "", "", 0});
  trouble_ = std::move(trouble);
  stage_.clear();
  ++version_;
}

void Board::show_scenes(std::vector<SceneTold> scenes) {
  scenes_ = std::move(scenes);
  ++version_;
}

void Board::wish(std::vector<PictureWish> playing, std::size_t beats) {
  if (wished_edit_ != edits_) {
    long_ago_ = std::move(earlier_);
    earlier_.clear();
    wished_edit_ = edits_;
  }
  earlier_.insert(beats_.begin(), beats_.end());
  for (const PictureWish& one : playing_) earlier_.insert(one.id);
  playing_ = std::move(playing);
  beats_.assign(beats, "");
  drop_unused();
}

std::string Board::keep(std::string png) {
  std::string id = id_of(png);
  pictures_.try_emplace(id, std::make_shared<const std::string>(std::move(png)));
  return id;
}

std::string Board::drawn(std::size_t playing_index, std::string png) {
  return playing_.at(playing_index).id = keep(std::move(png));
}

std::string Board::drawn_for_beat(std::size_t beat, std::string png) { return beats_.at(beat) = keep(std::move(png)); }

void Board::tell_pictures() { pictures_version_ = ++version_; }

void Board::drop_unused() {
  std::set<std::string> used = earlier_;
  used.insert(long_ago_.begin(), long_ago_.end());
  for (const PictureWish& one : playing_) used.insert(one.id);
  std::erase_if(pictures_, [&](const auto& picture) { return !used.contains(picture.first); });
}

Bytes Board::picture(const std::string& id) const {
  const auto found = pictures_.find(id);
  return found == pictures_.end() ? nullptr : found->second;
}

std::string Board::news() const {
  Json trouble = Json::array(), scenes = Json::array();
  for (const BoardFinding& one : trouble_) trouble.push_back(trouble_json(one));
  for (const SceneTold& one : scenes_)
    scenes.push_back({{"name", one.name}, {"findings", one.findings}, {"shown", one.shown}});
  return text_of({{"version", version_},
                  {"page", page_version_},
                  {"pictures", pictures_version_},
                  {"edits", page_edit_},
                  {"read", edits_},
                  {"beat", beat_},
                  {"stale", stale_},
                  {"stage", stage_},
                  {"headline", headline_},
                  {"trouble", trouble},
                  {"scenes", scenes}});
}

std::string Board::pictures_json() const {
  Json showing = Json::array(), addresses = Json::array(), beats = Json::array();
  std::map<std::string, std::size_t> known;
  for (const PictureWish& one : playing_) {
    if (one.id.empty()) {
      showing.push_back(Json::array({one.from, -1}));
      continue;
    }
    const auto [place, anew] = known.try_emplace(one.id, addresses.size());
    if (anew) addresses.push_back(address_of(one.id));
    showing.push_back(Json::array({one.from, place->second}));
  }
  for (const std::string& id : beats_) beats.push_back(address_of(id));
  return text_of({{"showing", showing}, {"addresses", addresses}, {"beats", beats}});
}

}  // namespace lensward
