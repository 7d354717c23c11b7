#include "export/export.h"

namespace lensward {
namespace {

// RFC 4180: quoted when there is a comma, a quote or a line end in it; a quote is doubled.
std::string quoted(const std::string& text) {
  if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
  std::string result = "\"";
  for (const char letter : text) {
    if (letter == '"') result += '"';
    result += letter;
  }
  return result + '"';
}

}  // namespace

std::string to_csv(const CrewTable& table) {
  std::string bytes;
  const auto end_of = [&](std::size_t i) { return i + 1 == table.fields.size() ? "\r\n" : ","; };
  for (std::size_t i = 0; i < table.fields.size(); ++i) bytes += table.fields[i].key + end_of(i);
  for (const std::vector<Entry>& row : table.rows)
    for (std::size_t i = 0; i < row.size(); ++i) bytes += quoted(data_text(row[i])) + end_of(i);
  return bytes;
}

}  // namespace lensward
