// The language server without its streams and threads: messages in, messages and work out.
#pragma once

#include <atomic>
#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "editor/answers.h"
#include "editor/compiled.h"
#include "editor/told.h"
#include "editor/wire.h"
#include "source/host.h"
#include "source/stand_in_host.h"

namespace lensward {

// Something to be worked out from the files as they are now. Nobody waits for it any more once `unwanted` is set.
struct Work {
  std::string uri;       // of the open file
  std::string path;      // that it is read by
  std::string known_as;  // that its places are told by
  StandIns texts;
  std::int64_t edition = 0;
  std::shared_ptr<std::atomic<bool>> unwanted;
};

// Ways out of the findings of some lines, for one who asked.
struct WaysWork {
  Work work;
  int first_line = 1, last_line = 1;
  JsonValue id;
};

// Keeps the files that are open, answers what the text alone answers, and has the rest worked out: what was made of a
// file (`next_check`, given back to `take_checked`) and ways out (`next_ways`, `take_ways`). Whoever runs it decides
// when: old findings stay in the editor, moved with their words, until new ones are there. `next_early` is a check up
// to the plan alone. What is found ahead of the rest goes to `take_ahead`, and only what will stand is shown. Not for
// several threads.
class Desk {
 public:
  // The host must outlive it.
  Desk(Host& host, std::string version) : host_(host), version_(std::move(version)) {}

  // One message as it came.
  void take(const std::string& message);
  // Something came that is no message; why not, in words.
  void take_malformed(const std::string& words);
  void take_ahead(const Work& work, Ahead ahead, std::vector<Told> told);
  void take_checked(const Work& work, const CompiledFile& compiled);
  void take_ways(const WaysWork& work, const std::vector<WayFound>& ways);

  // What is to be sent, in order; each once.
  std::vector<JsonValue> to_send();
  // Nothing when nothing is left to do.
  std::optional<Work> next_early();
  std::optional<Work> next_check();
  std::optional<WaysWork> next_ways();
  bool wants_early() const;
  bool wants_check() const;
  bool wants_ways() const { return !ways_asked_.empty(); }

  // Nobody waits for any work any more.
  void give_up();

  // After `exit`. The status is 0 when `shutdown` was asked for first, else 1 (protocol, "Exit Notification").
  bool over() const { return over_; }
  int exit_status() const { return shut_down_ ? 0 : 1; }

 private:
  struct Asked {
    JsonValue id;
    std::string method;
    JsonValue params;
  };
  struct Document {
    std::string uri, path;
    std::string known_as;  // the path, with every link followed
    JsonValue version;
    StandIn text;
    std::int64_t edition = 0;
    bool early_wanted = false, check_wanted = false;
    std::shared_ptr<std::atomic<bool>> unwanted;  // what is being worked out of this edition
    CompiledFile compiled;
    std::int64_t compiled_edition = -1;
    bool shown = false;                                  // anything yet, be it that there is nothing
    std::vector<Told> told;                              // what the editor shows
    std::map<Ahead, std::vector<Told>> found_ahead;      // of this edition
    std::map<Ahead, std::vector<Told>> found_after_all;  // by the last whole check, and not ahead
    std::set<std::string> made_of;                       // files, as they are known
    std::vector<Asked> waiting;                          // for what is made of this edition
  };

  void take_request(const JsonValue& message, const std::string& method);
  void take_notification(const JsonValue& message, const std::string& method);
  void answer(const Asked& asked);
  void initialize(const Asked& asked);
  void initialized();
  void open(const JsonValue& params);
  void change(const JsonValue& params);
  void close(const JsonValue& params);
  void cancel(const JsonValue& params);

  bool answer_from_text(const Asked& asked, const Document& document);
  void answer_from_made(const Asked& asked, Document& document);
  void answer_repairs(const Asked& asked, Document& document, const std::vector<WayFound>& ways);

  void send(JsonValue message) { outgoing_.push_back(std::move(message)); }
  void reply(const JsonValue& id, JsonValue result);
  void refuse(const JsonValue& id, Fault fault, const std::string& words);
  void warn(const std::string& words);

  Document* document_of(const std::string& uri);
  Document* document_known_as(const std::string& path);
  void renew(Document& document);
  void let_go_of(Document& document);
  // The document and whatever uses its file; all of them for a file that came or went.
  void renew_users_of(const Document& document, bool all);
  void apply(const JsonValue& change, Document& document, std::string& text);
  StandIns texts() const;
  Work work_of(const Document& document) const;
  std::optional<ReadFiles> read(const Document& document);
  void publish();
  JsonValue diagnostics_of(const std::string& path);
  std::optional<std::string> text_known(const std::string& path);
  Manner manner();

  Host& host_;
  std::string version_;
  Manner manner_;
  bool initialized_ = false, shut_down_ = false, over_ = false, watches_ = false;
  std::map<std::string, Document> documents_;  // by URI
  std::string latest_;                         // the URI last changed
  std::int64_t edition_ = 0;
  std::set<std::string> pending_;  // ids, as written
  std::vector<WaysWork> ways_asked_;
  std::map<std::string, std::pair<WaysWork, Asked>> ways_working_;  // by id
  std::map<std::string, JsonValue> published_;                      // by the path a file is known by
  std::vector<JsonValue> outgoing_;
};

}  // namespace lensward
