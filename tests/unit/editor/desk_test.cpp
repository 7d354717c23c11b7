#include "editor/desk.h"

#include <catch2/catch.hpp>

#include "syntax/parse.h"

using namespace lensward;

namespace {

// What a check would have made: findings at words of the text, with nothing played.
class Made : public Compiled {
 public:
  Made(const Work& work, const std::vector<std::pair<std::string, std::string>>& rules_at_words) {
    const std::string text = *work.texts.at(work.known_as);
    own_ = sources_.add(SourceFile(work.path, text));
    GatheredFile file;
    file.canonical = work.known_as;
    file.tree = parse(sources_, own_, unheard_);
    gathered_.files.push_back(std::move(file));
    for (const auto& [rule, words] : rules_at_words) {
      const auto at = static_cast<std::uint32_t>(text.find(words));
      Finding finding;
      finding.rule = rule;
      finding.severity = Severity::warning;
      finding.where = {own_, at, at + static_cast<std::uint32_t>(words.size())};
      finding.message = "of " + words;
      findings_.add(std::move(finding));
    }
  }

  const SourceSet& sources() const override { return sources_; }
  const Gathered& gathered() const override { return gathered_; }
  const Findings& findings() const override { return findings_; }
  const Plan& plan() const override { return plan_; }
  std::int32_t own() const override { return own_; }
  const std::string& trouble() const override { return trouble_; }
  std::string told_of(int line) const override { return "line " + std::to_string(line); }

 private:
  SourceSet sources_;
  Gathered gathered_;
  Findings findings_, unheard_;
  Plan plan_;
  std::int32_t own_ = 0;
  std::string trouble_;
};

const std::string uri = "file:///a.staging";

class Session {
 public:
  Session() { ask(0, "initialize", {{"capabilities", JsonValue::object()}}); }

  void ask(int id, const std::string& method, const JsonValue& params) {
    desk.take(JsonValue{{"id", id}, {"method", method}, {"params", params}}.dump());
  }
  void tell(const std::string& method, const JsonValue& params) { desk.take(notice(method, params).dump()); }
  void open(const std::string& text) {
    tell("textDocument/didOpen", {{"textDocument", {{"uri", uri}, {"version", 1}, {"text", text}}}});
  }
  void put_in(int line, int character, const std::string& words) {
    const JsonValue place = {{"line", line}, {"character", character}};
    const JsonValue change = {{"range", {{"start", place}, {"end", place}}}, {"text", words}};
    tell("textDocument/didChange",
         {{"textDocument", {{"uri", uri}, {"version", ++version}}}, {"contentChanges", {change}}});
  }
  void hover(int id) {
    ask(id, "textDocument/hover", {{"textDocument", {{"uri", uri}}}, {"position", {{"line", 0}, {"character", 0}}}});
  }
  void check(const std::vector<std::pair<std::string, std::string>>& rules_at_words) {
    const auto work = desk.next_check();
    REQUIRE(work);
    desk.take_checked(*work, std::make_shared<Made>(*work, rules_at_words));
  }
  void checked(const Work& work, const std::vector<std::pair<std::string, std::string>>& rules_at_words) {
    desk.take_checked(work, std::make_shared<Made>(work, rules_at_words));
  }
  void ahead(const Work& work, Ahead depth, const std::vector<std::pair<std::string, std::string>>& rules_at_words) {
    desk.take_ahead(work, depth, told_of(Made(work, rules_at_words), work.known_as));
  }

  // "rule@line:character …" of the last that was published.
  std::string shown() {
    read();
    return shown_;
  }
  // The answer to a request: its error code, or 0; nothing: none came.
  std::optional<int> answered(int id) {
    read();
    const auto found = answers_.find(id);
    return found == answers_.end() ? std::nullopt : std::optional(found->second);
  }

  MemoryHost host;
  Desk desk{host, "0"};

 private:
  void read() {
    for (const JsonValue& message : desk.to_send()) {
      if (message.contains("id") && message.at("id").is_number())
        answers_[message.at("id")] = message.contains("error") ? message.at("error").at("code").get<int>() : 0;
      if (message.value("method", "") != "textDocument/publishDiagnostics") continue;
      shown_.clear();
      for (const JsonValue& one : message.at("params").at("diagnostics")) {
        const JsonValue& begin = one.at("range").at("start");
        shown_ += (shown_.empty() ? "" : " ") + one.at("code").get<std::string>() + '@' + begin.at("line").dump() +
                  ':' + begin.at("character").dump();
      }
    }
  }

  int version = 1;
  std::string shown_ = "nothing";
  std::map<int, int> answers_;
};

}  // namespace

TEST_CASE("old findings stay, moved with their words, until new ones are there") {
  Session session;
  session.open("one two three\n");
  session.check({{"name.a", "one"}, {"lost", "three"}});
  CHECK(session.shown() == "name.a@0:0 lost@0:8");
  session.put_in(0, 4, "and ");
  const auto early = session.desk.next_early();
  REQUIRE(early);
  session.ahead(*early, Ahead::text, {{"name.b", "two"}, {"lost", "and"}});
  // Of the text the new ones, of the staging the old ones, where their words are now.
  CHECK(session.shown() == "name.b@0:8 lost@0:12");
  session.check({{"name.b", "two"}});
  CHECK(session.shown() == "name.b@0:8");
}

TEST_CASE("findings at the marks stand ahead of the rest, but for stale waivers") {
  Session session;
  session.open("one two three\n");
  const auto first = session.desk.next_check();
  REQUIRE(first);
  session.ahead(*first, Ahead::marks, {{"lost", "three"}, {"stale-waiver", "two"}});
  CHECK(session.shown() == "lost@0:8");
  session.checked(*first, {{"fine-mark", "one"}, {"lost", "three"}});
  CHECK(session.shown() == "fine-mark@0:0 lost@0:8");
  session.put_in(0, 0, " ");
  const auto second = session.desk.next_check();
  REQUIRE(second);
  // What only a whole check finds stays, moved; what the marks show is new.
  session.ahead(*second, Ahead::marks, {{"lost", "two"}});
  CHECK(session.shown() == "fine-mark@0:1 lost@0:5");
  session.checked(*second, {{"lost", "two"}, {"fine-mark", "three"}});
  CHECK(session.shown() == "lost@0:5 fine-mark@0:9");
}

TEST_CASE("what was made of an older text is of no use") {
  Session session;
  session.open("one two\n");
  const auto work = session.desk.next_check();
  REQUIRE(work);
  session.put_in(0, 0, "x");
  CHECK(work->unwanted->load());
  session.desk.take_checked(
      *work, std::make_shared<Made>(*work, std::vector<std::pair<std::string, std::string>>{{"lost", "one"}}));
  CHECK(session.shown() == "nothing");
  session.check({});
  CHECK(session.shown().empty());
}

TEST_CASE("questions wait for what is made of the text as it is") {
  Session session;
  session.open("one two\n");
  session.hover(5);
  CHECK_FALSE(session.answered(5));
  session.hover(5);
  CHECK(session.answered(5) == static_cast<int>(Fault::invalid_request));
  session.check({});
  CHECK(session.answered(5) == 0);
  session.hover(5);
  CHECK(session.answered(5) == 0);
}

TEST_CASE("cancelled and closed questions are answered so") {
  Session session;
  session.open("one two\n");
  session.hover(5);
  session.hover(6);
  session.tell("$/cancelRequest", {{"id", 5}});
  session.tell("$/cancelRequest", {{"id", 77}});
  CHECK(session.answered(5) == static_cast<int>(Fault::request_cancelled));
  CHECK_FALSE(session.answered(77));
  session.tell("textDocument/didClose", {{"textDocument", {{"uri", uri}}}});
  CHECK(session.answered(6) == static_cast<int>(Fault::request_cancelled));
  session.hover(7);
  CHECK(session.answered(7) == static_cast<int>(Fault::invalid_params));
}

TEST_CASE("opened a second time, what was asked of the first is not left waiting") {
  Session session;
  session.open("one two\n");
  session.hover(5);
  session.open("three\n");
  CHECK(session.answered(5) == static_cast<int>(Fault::request_cancelled));
}

TEST_CASE("closing a file takes its findings away") {
  Session session;
  session.open("one two\n");
  session.check({{"lost", "one"}});
  session.tell("textDocument/didClose", {{"textDocument", {{"uri", uri}}}});
  CHECK(session.shown().empty());
  CHECK_FALSE(session.desk.next_check());
}

TEST_CASE("nothing before initialize, nothing after shutdown") {
  MemoryHost host;
  Desk desk(host, "0");
  const auto answer = [&](const std::string& method) {
    desk.take(JsonValue{{"id", 1}, {"method", method}}.dump());
    const std::vector<JsonValue> sent = desk.to_send();
    REQUIRE(sent.size() == 1);
    return sent[0].contains("error") ? sent[0].at("error").at("code").get<int>() : 0;
  };
  CHECK(answer("shutdown") == static_cast<int>(Fault::not_initialized));
  desk.take(notice("textDocument/didOpen", {}).dump());
  CHECK(desk.to_send().empty());
  CHECK(answer("initialize") == 0);
  CHECK(answer("initialize") == static_cast<int>(Fault::invalid_request));
  CHECK(answer("a/b") == static_cast<int>(Fault::method_not_found));
  CHECK(answer("shutdown") == 0);
  CHECK(answer("shutdown") == static_cast<int>(Fault::invalid_request));
  CHECK_FALSE(desk.over());
  desk.take(notice("exit", {}).dump());
  CHECK(desk.over());
  CHECK(desk.exit_status() == 0);
}

TEST_CASE("exit without shutdown is told by the status") {
  MemoryHost host;
  Desk desk(host, "0");
  desk.take(notice("exit", {}).dump());
  CHECK(desk.over());
  CHECK(desk.exit_status() == 1);
}

TEST_CASE("what is no message is answered in words") {
  MemoryHost host;
  Desk desk(host, "0");
  for (const char* text : {"", "{", "[]", "3", "{\"id\":{},\"method\":\"x\"}", "{\"id\":1,\"method\":4}", "\xFF"}) {
    CAPTURE(text);
    desk.take(text);
    const std::vector<JsonValue> sent = desk.to_send();
    REQUIRE(sent.size() == 1);
    CHECK(sent[0].at("id").is_null());
    CHECK_FALSE(sent[0].at("error").at("message").get<std::string>().empty());
  }
  desk.take("{\"id\":1,\"result\":null}");
  CHECK(desk.to_send().empty());
}
