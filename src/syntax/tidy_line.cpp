#include "syntax/tidy_line.h"

#include <algorithm>
#include <array>
#include <utility>

#include "syntax/spelling.h"

namespace lensward {
namespace {

constexpr std::string_view more_indent = "  ";
constexpr std::string_view spoken_indent = "    ";
constexpr std::string_view comment_gap = "  ";

enum Rank {
  members,
  place,
  mark,
  size,
  posture,
  turn,
  hands,
  measures,
  traits,
  manner,
  length,
  cue,
  until,
  stay,
  name,
  fixed,
  reason
};

Rank rank_of_label(const NodeView& label) {
  if (label.kind() == NodeKind::filed_extra) return Rank::reason;
  if (label.text().starts_with("mark")) return Rank::mark;
  if (label.text().starts_with("named")) return Rank::name;
  return label.text().starts_with("because") ? Rank::reason : Rank::members;
}

bool is_short(std::string_view text) { return text.size() <= static_cast<std::size_t>(widest_line); }

// Characters take no more cells than bytes.
int width_of(std::string_view text) { return is_short(text) ? static_cast<int>(text.size()) : display_width(text); }

bool fits(std::string_view text) { return width_of(text) <= widest_line; }

bool has_order(NodeKind statement) {
  switch (statement) {
    case NodeKind::people:
    case NodeKind::room:
    case NodeKind::declare:
    case NodeKind::scene:
    case NodeKind::bring_in:
    case NodeKind::treat:
    case NodeKind::sizing:
      return false;
    default:
      return true;
  }
}

// Where words may be parted: at a single space outside of square brackets, and not just after a mark.
std::vector<std::size_t> spaces_in(std::string_view words) {
  std::vector<std::size_t> spaces;
  bool inside = false;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (words[i] == '[') inside = true;
    if (words[i] == ']') inside = false;
    if (words[i] != ' ' || inside || i == 0 || i + 1 == words.size()) continue;
    if (words[i - 1] != ' ' && words[i + 1] != ' ' && words[i - 1] != ']') spaces.push_back(i);
  }
  return spaces;
}

// One quoted text as lines of speech, each as full as it may be.
void add_spoken(std::string_view text, std::vector<std::string>& lines) {
  const std::size_t mark = text.front() == '"' ? 1 : text.starts_with("«") ? 2 : 3;
  const std::string open = std::string(spoken_indent) + std::string(text.substr(0, mark));
  const std::string_view close = text.substr(text.size() - mark);
  std::string_view words = text.substr(mark, text.size() - 2 * mark);
  const auto line_of = [&](std::string_view part) { return open + std::string(part) + std::string(close); };
  while (!fits(line_of(words))) {
    const std::vector<std::size_t> spaces = spaces_in(words);
    if (spaces.empty()) break;
    const auto past =
        std::ranges::find_if(spaces, [&](std::size_t space) { return !fits(line_of(words.substr(0, space))); });
    const std::size_t space = past == spaces.begin() ? spaces.front() : *(past - 1);
    lines.push_back(line_of(words.substr(0, space)));
    words.remove_prefix(space + 1);
  }
  lines.push_back(line_of(words));
}

std::string with_texts(std::string line, const std::vector<std::string>& texts) {
  for (const std::string& text : texts) line += ' ' + text;
  return line;
}

std::string before_clause(const TidyLine& line, std::size_t i) {
  if (i > 0 || line.comma_first || (line.verb_last && line.clauses[0].off)) return ", ";
  return " ";
}

std::string head_with_clauses(const TidyLine& line, std::string_view indent) {
  std::string text = std::string(indent) + line.head;
  for (std::size_t i = 0; i < line.clauses.size(); ++i) text += before_clause(line, i) + line.clauses[i].text;
  return text;
}

std::vector<std::string> broken_speech(const TidyLine& line, std::string head) {
  std::vector<std::string> lines;
  if (line.speech) lines.push_back(std::move(head));
  for (const std::string& text : line.texts) add_spoken(text, lines);
  return lines;
}

std::vector<std::string> broken_at_commas(const TidyLine& line, std::string_view indent) {
  std::vector<std::string> lines = {std::string(indent) + line.head};
  for (std::size_t i = 0; i < line.clauses.size(); ++i) {
    const std::string gap = before_clause(line, i);
    const std::string& clause = line.clauses[i].text;
    if (gap == " " || fits(lines.back() + gap + clause)) {
      lines.back() += gap + clause;
    } else {
      lines.push_back(std::string(more_indent) + "+ " + clause);
    }
  }
  return lines;
}

}  // namespace

int rank_of(const NodeView& clause) {
  const NodeView said = clause.only();
  switch (said.kind()) {
    case NodeKind::of_whom:
    case NodeKind::piece:
    case NodeKind::filed_number:
    case NodeKind::doors:
    case NodeKind::hour:
    case NodeKind::pages:
      return Rank::members;
    case NodeKind::to_goal:
    case NodeKind::at_spot:
    case NodeKind::shift:
    case NodeKind::where:
    case NodeKind::on_rig:
    case NodeKind::route_via:
    case NodeKind::route_round:
    case NodeKind::route_passing:
    case NodeKind::route_from:
    case NodeKind::route_by:
      return Rank::place;
    case NodeKind::size:
      return Rank::size;
    case NodeKind::posture:
      return Rank::posture;
    case NodeKind::facing:
    case NodeKind::body:
      return Rank::turn;
    case NodeKind::hands:
      return Rank::hands;
    case NodeKind::measure:
      return said.child(NodeKind::along_apart) ? Rank::place : Rank::measures;
    case NodeKind::dims:
    case NodeKind::with_lens:
    case NodeKind::with_stop:
    case NodeKind::with_focus:
    case NodeKind::aims:
    case NodeKind::gives:
    case NodeKind::front:
    case NodeKind::hangs:
      return Rank::measures;
    case NodeKind::trait_word:
    case NodeKind::trait_tone:
    case NodeKind::trait_tape:
      return Rank::traits;
    case NodeKind::length:
      return Rank::length;
    case NodeKind::until:
    case NodeKind::while_deed:
      return Rank::until;
    case NodeKind::cutting_in:
      return Rank::stay;
    case NodeKind::stay:
      return said.text() == "fixed" ? Rank::fixed : Rank::stay;
    case NodeKind::called:
    case NodeKind::named:
    case NodeKind::filed_extra:
      return rank_of_label(said);
    case NodeKind::lean:
    case NodeKind::pace:
    case NodeKind::loudness:
    case NodeKind::voice_off:
    case NodeKind::trailing_off:
    case NodeKind::cut_off:
    case NodeKind::scale:
    case NodeKind::strength:
      return Rank::manner;
    default:
      return Rank::cue;
  }
}

TidyLine take_apart(const NodeView& statement, std::span<const TidyToken> tokens) {
  TidyLine line;
  const NodeKind kind = statement.kind();
  line.in_time = has_order(kind);
  line.speech = kind == NodeKind::speech;
  line.verb_last = kind == NodeKind::deed_line || kind == NodeKind::draw;
  if (!tokens.empty() && tokens.back().kind == Leaf::Kind::comment) {
    line.comment = tokens.back().spelled;
    tokens = tokens.first(tokens.size() - 1);
  }
  const auto up_to = [&tokens](std::uint32_t at) {
    std::size_t count = 0;
    while (count < tokens.size() && tokens[count].begin < at) ++count;
    const auto part = tokens.first(count);
    tokens = tokens.subspan(count);
    return part;
  };
  const std::vector<NodeView> clauses = statement.children(NodeKind::clause);
  const std::vector<NodeView> texts =
      line.speech || kind == NodeKind::spoken ? statement.children(NodeKind::text) : std::vector<NodeView>{};
  const std::uint32_t head_end = !clauses.empty() ? clauses[0].span().begin
                                 : !texts.empty() ? texts[0].span().begin
                                                  : statement.span().end;
  auto head = up_to(head_end);
  line.comma_first = !clauses.empty() && !head.empty() && head.back().spelled == ",";
  if (line.comma_first) head = head.first(head.size() - 1);
  line.head = joined(head);
  for (const NodeView& clause : clauses) {
    const auto said = clause.only();
    up_to(clause.span().begin);
    line.clauses.push_back({rank_of(clause), said.kind() == NodeKind::voice_off, joined(up_to(clause.span().end))});
  }
  if (line.speech && clauses.empty() && line.head.ends_with(':')) line.head.pop_back();
  for (const NodeView& text : texts) {
    up_to(text.span().begin);
    line.texts.push_back(joined(up_to(text.span().end)));
  }
  return line;
}

void order_clauses(TidyLine& line) { std::ranges::stable_sort(line.clauses, {}, &TidyClause::rank); }

std::vector<std::string> put_together(const TidyLine& line, std::string_view indent, bool may_break) {
  if (line.head.empty() && !line.texts.empty()) indent = spoken_indent;
  if (line.head == "+") indent = more_indent;
  std::string head = head_with_clauses(line, indent);
  if (line.speech) head += ':';
  std::string whole = line.head.empty() && !line.texts.empty() ? head + with_texts({}, line.texts).substr(1)
                                                               : with_texts(head, line.texts);
  std::vector<std::string> lines;
  if (!may_break || fits(whole)) {
    lines.push_back(std::move(whole));
  } else if (!line.texts.empty()) {
    lines = broken_speech(line, std::move(head));
  } else {
    lines = broken_at_commas(line, indent);
  }
  if (!line.comment.empty()) {
    const bool alone = lines[0].find_first_not_of(' ') == std::string::npos;
    lines[0] += (alone ? std::string() : std::string(comment_gap)) + line.comment;
  }
  return lines;
}

}  // namespace lensward
