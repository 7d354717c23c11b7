#include "editor/desk.h"

#include <algorithm>

#include "source/character.h"

namespace lensward {
namespace {

constexpr int quick_fix_asked_for = 1;  // CodeActionTriggerKind.Invoked

std::optional<JsonValue> parsed(const std::string& message) {
  JsonValue json = JsonValue::parse(message, nullptr, false);
  if (json.is_discarded()) json = JsonValue::parse(with_bad_characters_replaced(message), nullptr, false);
  if (json.is_discarded()) return std::nullopt;
  return json;
}

bool is_id(const JsonValue& id) { return id.is_string() || id.is_number_integer(); }

// What the client says it can do, false when it says nothing.
bool can(const JsonValue& params, const char* pointer) {
  const JsonValue::json_pointer at(pointer);
  return params.contains(at) && params.at(at).is_boolean() && params.at(at).get<bool>();
}

bool offers(const JsonValue& params, const char* pointer, const char* value) {
  const JsonValue::json_pointer at(pointer);
  if (!params.contains(at) || !params.at(at).is_array()) return false;
  const JsonValue& list = params.at(at);
  return std::ranges::find(list, JsonValue(value)) != list.end();
}

JsonValue capabilities(Columns columns) {
  return {{"positionEncoding", columns == Columns::utf8 ? "utf-8" : "utf-16"},
          {"textDocumentSync", {{"openClose", true}, {"change", 2}}},
          {"hoverProvider", true},
          {"definitionProvider", true},
          {"referencesProvider", true},
          {"documentSymbolProvider", true},
          {"documentFormattingProvider", true},
          {"renameProvider", {{"prepareProvider", true}}},
          {"completionProvider", {{"triggerCharacters", {"["}}}},
          {"codeActionProvider", {{"codeActionKinds", {"quickfix"}}}},
          {"inlayHintProvider", true}};
}

const std::string& uri_in(const JsonValue& params) {
  return params.at("textDocument").at("uri").get_ref<const std::string&>();
}

const std::set<std::string>& methods_of_a_document() {
  static const std::set<std::string> all{
      "textDocument/hover",      "textDocument/definition", "textDocument/references",    "textDocument/documentSymbol",
      "textDocument/formatting", "textDocument/rename",     "textDocument/prepareRename", "textDocument/completion",
      "textDocument/codeAction", "textDocument/inlayHint",
  };
  return all;
}

// Is it a message by itself that somebody wants the ways out, not an editor that looks at every move of the cursor?
bool asks_for_ways(const JsonValue& params) {
  const JsonValue& context = params.at("context");
  return context.value("triggerKind", quick_fix_asked_for) == quick_fix_asked_for;
}

bool wants_quick_fixes(const JsonValue& params) {
  const JsonValue& context = params.at("context");
  if (!context.contains("only")) return true;
  // No words at all are the kind above all kinds.
  return std::ranges::any_of(context.at("only"), [](const JsonValue& kind) {
    const auto words = kind.get<std::string>();
    return words.empty() || words == "quickfix";
  });
}

}  // namespace

// ---- Messages -----------------------------------------------------------------------------------------------------

void Desk::take(const std::string& message) {
  const std::optional<JsonValue> json = parsed(message);
  if (!json) return take_malformed("a message came that is no JSON");
  if (!json->is_object()) return take_malformed("a message came that is no JSON object");
  const auto method = json->find("method");
  if (method == json->end()) return;
  const auto id = json->find("id");
  if (!method->is_string() || (id != json->end() && !is_id(*id))) {
    return send(refusal_of(nullptr, Fault::invalid_request, "a message came whose method or id is no word or number"));
  }
  if (id != json->end()) {
    take_request(*json, *method);
  } else {
    take_notification(*json, *method);
  }
}

void Desk::take_malformed(const std::string& words) { send(refusal_of(nullptr, Fault::parse_error, words)); }

void Desk::take_request(const JsonValue& message, const std::string& method) {
  const Asked asked{message.at("id"), method, message.value("params", JsonValue())};
  if (!pending_.insert(asked.id.dump()).second) {
    return send(refusal_of(asked.id, Fault::invalid_request,
                           "a request with this id is still being answered; the first one goes on"));
  }
  try {
    answer(asked);
  } catch (const JsonValue::exception& fault) {
    refuse(asked.id, Fault::invalid_params, "the parameters of " + method + " cannot be read: " + fault.what());
  }
}

void Desk::take_notification(const JsonValue& message, const std::string& method) {
  if (method == "exit") over_ = true;
  if (!initialized_ || shut_down_) return;
  const JsonValue params = message.value("params", JsonValue());
  try {
    if (method == "initialized") initialized();
    if (method == "textDocument/didOpen") open(params);
    if (method == "textDocument/didChange") change(params);
    if (method == "textDocument/didClose") close(params);
    if (method == "$/cancelRequest") cancel(params);
    if (method == "workspace/didChangeWatchedFiles") {
      for (auto& [uri, document] : documents_) renew(document);
    }
  } catch (const JsonValue::exception& fault) {
    warn("the parameters of " + method + " cannot be read: " + fault.what());
  }
}

void Desk::answer(const Asked& asked) {
  if (asked.method == "initialize") return initialize(asked);
  if (!initialized_) return refuse(asked.id, Fault::not_initialized, "`initialize` has to come first");
  if (shut_down_) return refuse(asked.id, Fault::invalid_request, "the server was told to shut down");
  if (asked.method == "shutdown") {
    shut_down_ = true;
    return reply(asked.id, nullptr);
  }
  if (!methods_of_a_document().contains(asked.method))
    return refuse(asked.id, Fault::method_not_found, "there is no method `" + printable(asked.method) + "` here");
  Document* document = document_of(uri_in(asked.params));
  if (document == nullptr)
    return refuse(asked.id, Fault::invalid_params, "this document is not open: " + uri_in(asked.params));
  if (answer_from_text(asked, *document)) return;
  if (document->compiled_edition == document->edition) return answer_from_made(asked, *document);
  document->waiting.push_back(asked);
}

void Desk::initialize(const Asked& asked) {
  if (initialized_) return refuse(asked.id, Fault::invalid_request, "`initialize` came a second time");
  initialized_ = true;
  const JsonValue& params = asked.params;
  manner_.columns = offers(params, "/capabilities/general/positionEncodings", "utf-8") ? Columns::utf8 : Columns::utf16;
  manner_.document_changes = can(params, "/capabilities/workspace/workspaceEdit/documentChanges");
  manner_.outline_in_levels =
      can(params, "/capabilities/textDocument/documentSymbol/hierarchicalDocumentSymbolSupport");
  manner_.markdown = offers(params, "/capabilities/textDocument/hover/contentFormat", "markdown");
  watches_ = can(params, "/capabilities/workspace/didChangeWatchedFiles/dynamicRegistration");
  reply(asked.id, {{"capabilities", capabilities(manner_.columns)},
                   {"serverInfo", {{"name", "lensward"}, {"version", version_}}}});
}

// Files that nobody has open count too: a set that another program wrote changes the scenes in it.
void Desk::initialized() {
  if (!watches_) return;
  const JsonValue watchers = JsonValue::array({{{"globPattern", "**/*.staging"}}});
  const JsonValue registration = {{"id", "staging-files"},
                                  {"method", "workspace/didChangeWatchedFiles"},
                                  {"registerOptions", {{"watchers", watchers}}}};
  JsonValue request = notice("client/registerCapability", {{"registrations", JsonValue::array({registration})}});
  request["id"] = "staging-files";
  send(std::move(request));
}

void Desk::cancel(const JsonValue& params) {
  const std::string id = params.at("id").dump();
  if (!pending_.contains(id)) return;
  for (auto& [uri, document] : documents_) {
    std::erase_if(document.waiting, [&](const Asked& asked) { return asked.id.dump() == id; });
  }
  std::erase_if(ways_asked_, [&](const WaysWork& work) { return work.id.dump() == id; });
  if (const auto working = ways_working_.find(id); working != ways_working_.end()) {
    *working->second.first.work.unwanted = true;
    ways_working_.erase(working);
  }
  refuse(params.at("id"), Fault::request_cancelled, "cancelled, as asked");
}

void Desk::reply(const JsonValue& id, JsonValue result) {
  pending_.erase(id.dump());
  send(answer_to(id, std::move(result)));
}

void Desk::refuse(const JsonValue& id, Fault fault, const std::string& words) {
  pending_.erase(id.dump());
  send(refusal_of(id, fault, words));
}

void Desk::warn(const std::string& words) {
  constexpr int warning = 2;
  send(notice("window/logMessage", {{"type", warning}, {"message", words}}));
}

std::vector<JsonValue> Desk::to_send() { return std::exchange(outgoing_, {}); }

// ---- Documents ----------------------------------------------------------------------------------------------------

Desk::Document* Desk::document_of(const std::string& uri) {
  const auto found = documents_.find(uri);
  return found == documents_.end() ? nullptr : &found->second;
}

Desk::Document* Desk::document_known_as(const std::string& path) {
  for (auto& [uri, document] : documents_) {
    if (document.known_as == path) return &document;
  }
  return nullptr;
}

// From now on all that was made of it is old.
void Desk::renew(Document& document) {
  if (document.unwanted) *document.unwanted = true;
  document.unwanted = std::make_shared<std::atomic<bool>>(false);
  document.edition = ++edition_;
  document.found_ahead.clear();
  document.early_wanted = document.check_wanted = true;
}

void Desk::renew_users_of(const Document& document, bool all) {
  for (auto& [uri, other] : documents_) {
    // What it is made of is only known once it is made.
    const bool made = other.compiled_edition == other.edition;
    if (all || &other == &document || !made || other.made_of.contains(document.known_as)) renew(other);
  }
}

void Desk::open(const JsonValue& params) {
  const JsonValue& item = params.at("textDocument");
  const std::string uri = item.at("uri");
  Document document;
  document.uri = uri;
  // What is no file has no folder, so it can use none: it is read as standard input is.
  document.path = path_of(uri).value_or("-");
  document.known_as = document.path == "-" ? uri : whole_path(host_, document.path);
  document.version = item.value("version", JsonValue());
  document.text = std::make_shared<const std::string>(item.at("text").get<std::string>());
  if (Document* before = document_of(uri)) let_go_of(*before);
  documents_[uri] = std::move(document);
  latest_ = uri;
  renew_users_of(documents_[uri], true);
}

void Desk::apply(const JsonValue& change, Document& document, std::string& text) {
  const std::string& words = change.at("text").get_ref<const std::string&>();
  Replaced replaced;
  if (change.contains("range")) {
    const TextLines lines(text, manner_.columns);
    const CaretRange range = range_of(change.at("range"));
    const std::uint32_t begin = lines.offset(range.begin), end = std::max(begin, lines.offset(range.end));
    replaced = {document.known_as, begin, end, static_cast<std::uint32_t>(words.size())};
    text.replace(begin, end - begin, words);
  } else {
    replaced = difference(document.known_as, text, words);
    text = words;
  }
  for (auto& [uri, other] : documents_) {
    move_with(replaced, other.told);
    for (auto& [ahead, found] : other.found_after_all) move_with(replaced, found);
  }
}

void Desk::change(const JsonValue& params) {
  Document* document = document_of(uri_in(params));
  if (document == nullptr) return warn("a change came for a document that is not open: " + uri_in(params));
  std::string text = *document->text;
  for (const JsonValue& change : params.at("contentChanges")) apply(change, *document, text);
  document->text = std::make_shared<const std::string>(std::move(text));
  document->version = params.at("textDocument").value("version", JsonValue());
  latest_ = document->uri;
  renew_users_of(*document, false);
}

void Desk::let_go_of(Document& document) {
  if (document.unwanted) *document.unwanted = true;
  for (const Asked& asked : document.waiting) refuse(asked.id, Fault::request_cancelled, "the document was closed");
}

void Desk::close(const JsonValue& params) {
  Document* document = document_of(uri_in(params));
  if (document == nullptr) return;
  let_go_of(*document);
  documents_.erase(document->uri);
  for (auto& [uri, other] : documents_) renew(other);
  publish();
}

StandIns Desk::texts() const {
  StandIns texts;
  for (const auto& [uri, document] : documents_) {
    if (document.path != "-") texts[document.known_as] = document.text;
  }
  return texts;
}

// ---- Answers ------------------------------------------------------------------------------------------------------

Manner Desk::manner() {
  Manner manner = manner_;
  manner.uri = [this](const std::string& path) {
    const Document* document = document_known_as(path);
    if (document != nullptr) return document->uri;
    return path.starts_with('/') ? uri_of(path) : path;
  };
  manner.version = [this](const std::string& path) {
    const Document* document = document_known_as(path);
    return document != nullptr ? document->version : JsonValue();
  };
  return manner;
}

bool Desk::answer_from_text(const Asked& asked, const Document& document) {
  const std::string method = asked.method.substr(asked.method.find('/') + 1);
  if (method == "hover" || method == "inlayHint" || method == "codeAction") return false;
  const auto hand_over = [&](std::variant<JsonValue, std::string> made) {
    if (auto* words = std::get_if<std::string>(&made)) return refuse(asked.id, Fault::request_failed, *words);
    reply(asked.id, std::get<JsonValue>(std::move(made)));
  };
  if (method == "formatting") {
    hand_over(tidying(*document.text, manner()));
    return true;
  }
  const std::optional<ReadFiles> files = read(document);
  if (!files) {
    refuse(asked.id, Fault::request_failed, "this file cannot be read");
    return true;
  }
  if (method == "documentSymbol") {
    reply(asked.id, outline(*files, document.uri, manner()));
    return true;
  }
  const Caret caret = caret_of(asked.params.at("position"));
  if (method == "definition") reply(asked.id, definition(*files, caret, manner()));
  if (method == "completion") reply(asked.id, completion(*files, caret, manner()));
  if (method == "prepareRename") reply(asked.id, rename_place(*files, caret, manner()));
  if (method == "rename") hand_over(rename(*files, caret, asked.params.at("newName"), manner()));
  if (method == "references") {
    const bool all = asked.params.at("context").value("includeDeclaration", true);
    reply(asked.id, references(*files, caret, all, manner()));
  }
  return true;
}

void Desk::answer_from_made(const Asked& asked, Document& document) {
  if (asked.method == "textDocument/hover")
    return reply(asked.id, hover(*document.compiled, caret_of(asked.params.at("position")), manner()));
  if (asked.method == "textDocument/inlayHint")
    return reply(asked.id, lengths(*document.compiled, range_of(asked.params.at("range")), manner()));
  const CaretRange range = range_of(asked.params.at("range"));
  if (!wants_quick_fixes(asked.params)) return reply(asked.id, JsonValue::array());
  const auto [first, last] = lines_within(*document.compiled, range, manner());
  if (!asks_for_ways(asked.params) || last < first) return answer_repairs(asked, document, {});
  WaysWork work{work_of(document), first, last, asked.id};
  work.work.unwanted = std::make_shared<std::atomic<bool>>(false);
  ways_working_.insert_or_assign(asked.id.dump(), std::pair(work, asked));
  ways_asked_.push_back(std::move(work));
}

void Desk::answer_repairs(const Asked& asked, Document& document, const std::vector<WayFound>& ways) {
  reply(asked.id, repairs(*document.compiled, range_of(asked.params.at("range")), ways, document.known_as, manner()));
}

}  // namespace lensward
