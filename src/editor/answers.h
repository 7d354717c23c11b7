// What is asked about an open file, answered in the words of the protocol.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "editor/compiled.h"
#include "editor/read_files.h"
#include "editor/told.h"
#include "editor/wire.h"

namespace lensward {

// How the editor counts and calls things.
struct Manner {
  Columns columns = Columns::utf16;
  bool document_changes = false;  // edits may tell the version they are meant for
  bool outline_in_levels = false;
  bool markdown = false;
  // By the path a file is known by: what the editor calls it, and its version there or null.
  std::function<std::string(const std::string& path)> uri;
  std::function<JsonValue(const std::string& path)> version;
};

// A change that mends a finding: what it does, and how.
struct WayFound {
  std::string title;
  std::vector<TextEdit> edits;  // of the open file
};

// ---- Of the text ---------------------------------------------------------------------------------------------------

JsonValue definition(const ReadFiles& read, Caret caret, const Manner& manner);
JsonValue references(const ReadFiles& read, Caret caret, bool with_declaration, const Manner& manner);
// Null where there is no name.
JsonValue rename_place(const ReadFiles& read, Caret caret, const Manner& manner);
// A refusal is a string.
std::variant<JsonValue, std::string> rename(const ReadFiles& read, Caret caret, const std::string& name,
                                            const Manner& manner);
JsonValue outline(const ReadFiles& read, const std::string& uri, const Manner& manner);
JsonValue completion(const ReadFiles& read, Caret caret, const Manner& manner);
// The edits that make `tidy`'s text of it, line by line. A refusal is a string.
std::variant<JsonValue, std::string> tidying(const std::string& text, const Manner& manner);

// ---- Of what was made of it ----------------------------------------------------------------------------------------

JsonValue hover(const Compiled& compiled, Caret caret, const Manner& manner);
JsonValue lengths(const Compiled& compiled, const CaretRange& within, const Manner& manner);
// Repairs of the findings that stand in these lines, then the ways found.
JsonValue repairs(const Compiled& compiled, const CaretRange& within, const std::vector<WayFound>& ways,
                  const std::string& path, const Manner& manner);
// The lines of ours, from 1, that a range of theirs touches; first > last: none.
std::pair<int, int> lines_within(const Compiled& compiled, const CaretRange& within, const Manner& manner);
JsonValue diagnostic(const Told& told, const std::function<CaretRange(const ToldPlace&)>& range, const Manner& manner);

}  // namespace lensward
