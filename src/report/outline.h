// Any JSON as indented text that people read and tools compare: the text form of every dump.
#pragma once

#include <nlohmann/json.hpp>
#include <string>

namespace lensward {

// `key: value`, parts indented by two blanks, lists with `- `, short lists of plain values on one line as [a, b].
// Words stand bare unless that could be misread; then they are quoted as JSON. Keys keep their order. Ends in a line
// end.
std::string outline(const nlohmann::ordered_json& value);

// The JSON itself, indented by two blanks; bytes that are not UTF-8 become U+FFFD. Ends in a line end.
std::string json_text(const nlohmann::ordered_json& value);

}  // namespace lensward
