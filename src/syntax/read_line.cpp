// The one file that compiles the grammar. A control class stands beside the rules: it makes nodes and leaves of what
// matched and, on a second pass over a line that failed, notes how far reading came.
#include <algorithm>
#include <tao/pegtl.hpp>

#include "grammar/messages.hpp"
#include "grammar/staging.hpp"
#include "syntax/reading.h"

namespace lensward {
namespace {

namespace peg = tao::pegtl;
using Input = peg::memory_input<peg::tracking_mode::lazy, peg::eol::lf, const char*>;

template <class Rule>
inline constexpr int node_of = -1;
#define LENSWARD_NODE(rule) \
  template <>               \
  inline constexpr int node_of<grammar::rule> = static_cast<int>(NodeKind::rule);
#include "syntax/node_kind.def"
#undef LENSWARD_NODE

// What a lexeme is to the tree, and what it is called when it is missed.
template <class Lexeme>
struct Traits {
  static_assert(grammar::expected<Lexeme> != nullptr, "give the lexeme a name in grammar/messages.hpp");
  static constexpr Leaf::Kind leaf = Leaf::Kind::word;
  static constexpr Expected expected[] = {{grammar::expected<Lexeme>, false}};
};
template <grammar::Spelling... S>
struct Traits<grammar::lex::word_of<S...>> {
  static constexpr Leaf::Kind leaf = Leaf::Kind::word;
  static constexpr Expected expected[] = {{S.view(), true}...};
};
template <grammar::Spelling S>
struct Traits<grammar::lex::bytes<S>> {
  static constexpr Leaf::Kind leaf = Leaf::Kind::punctuation;
  static constexpr Expected expected[] = {{S.view(), true}};
};

template <class Lexeme, class... Of>
inline constexpr bool is_one_of = (std::is_same_v<Lexeme, Of> || ...);

template <class Lexeme>
constexpr Leaf::Kind leaf_of() {
  namespace lex = grammar::lex;
  if (is_one_of<Lexeme, lex::name, lex::path, lex::owner, lex::anchor>) return Leaf::Kind::name;
  if (is_one_of<Lexeme, lex::number, lex::count, lex::eighths, lex::tag, lex::version, lex::stop_value>)
    return Leaf::Kind::number;
  if (is_one_of<Lexeme, lex::text, lex::old_words>) return Leaf::Kind::quoted;
  if (is_one_of<Lexeme, lex::comment>) return Leaf::Kind::comment;
  if (is_one_of<Lexeme, lex::merge_mark>) return Leaf::Kind::unread;
  return Traits<Lexeme>::leaf;
}

struct Builder {
  const char* base;
  std::vector<Node>& nodes;
  std::vector<Leaf>& tokens;
  Stop* stop = nullptr;  // set on the second pass
  const char* farthest = nullptr;

  std::uint32_t offset(const char* at) const { return static_cast<std::uint32_t>(at - base); }
  void missed(const char* at, const Expected* expected, std::size_t count) {
    if (farthest != nullptr && at < farthest) return;
    if (at != farthest) stop->expected.clear();
    farthest = at;
    stop->expected.insert(stop->expected.end(), expected, expected + count);
  }
};

template <class Rule>
concept Token = requires { typename Rule::lexeme; };

// Rules inside a lexeme, and look-aheads, leave no trace.
template <class Rule>
struct Control : peg::normal<Rule> {
  template <peg::apply_mode A, peg::rewind_mode M, template <class...> class Action, template <class...> class Ctl,
            class In>
  static bool match(In& in, Builder& builder) {
    if constexpr (Token<Rule>) {
      return match_token<A>(in, builder);
    } else if constexpr (A == peg::apply_mode::nothing) {
      return peg::match<Rule, A, M, Action, Ctl>(in, builder);
    } else {
      return match_rule<A, M, Action, Ctl>(in, builder);
    }
  }

 private:
  template <peg::apply_mode A, class In>
  static bool match_token(In& in, Builder& builder) {
    using Lexeme = typename Rule::lexeme;
    auto rewind = in.template mark<peg::rewind_mode::required>();
    grammar::lex::blanks::match(in);
    const char* begin = in.current();
    if (peg::normal<Lexeme>::template match<peg::apply_mode::nothing, peg::rewind_mode::dontcare, peg::nothing,
                                            peg::normal>(in)) {
      if constexpr (A == peg::apply_mode::action) took<Lexeme>(builder, begin, in.current());
      return rewind(true);
    }
    if constexpr (A == peg::apply_mode::action) {
      if (builder.stop != nullptr) {
        builder.missed(begin, Traits<Lexeme>::expected, std::size(Traits<Lexeme>::expected));
      }
    }
    return rewind(false);
  }

  template <class Lexeme>
  static void took(Builder& builder, const char* begin, const char* end) {
    if (begin == end) return;
    builder.tokens.push_back({leaf_of<Lexeme>(), builder.offset(begin), builder.offset(end)});
    if constexpr (node_of<Rule> >= 0) {
      builder.nodes.push_back({static_cast<NodeKind>(node_of<Rule>), builder.offset(begin), builder.offset(end), 1});
    }
  }

  template <peg::apply_mode A, peg::rewind_mode M, template <class...> class Action, template <class...> class Ctl,
            class In>
  static bool match_rule(In& in, Builder& builder) {
    const char* begin = in.current();
    const std::size_t nodes = builder.nodes.size();
    const std::size_t tokens = builder.tokens.size();
    if (!peg::match<Rule, A, M, Action, Ctl>(in, builder)) {
      if (builder.nodes.size() != nodes) builder.nodes.resize(nodes);
      if (builder.tokens.size() != tokens) builder.tokens.resize(tokens);
      return false;
    }
    if constexpr (node_of<Rule> >= 0) {
      // Blanks before a node are not part of it; inside a speech there are no tokens and blanks are words.
      const bool blank_first = tokens < builder.tokens.size() && builder.tokens[tokens].begin > builder.offset(begin) &&
                               grammar::past_blanks(begin, in.end()) != begin;
      const std::uint32_t first = blank_first ? builder.tokens[tokens].begin : builder.offset(begin);
      const auto subtree = static_cast<std::uint32_t>(builder.nodes.size() - nodes + 1);
      builder.nodes.push_back({static_cast<NodeKind>(node_of<Rule>), first, builder.offset(in.current()), subtree});
    }
    return true;
  }
};

template <class Rule>
bool matches(Builder& builder, const char* begin, const char* end) {
  Input in(begin, end, "");
  return peg::parse<Rule, peg::nothing, Control>(in, builder);
}

void add_leaves(const std::vector<Leaf>& tokens, std::uint32_t begin, std::uint32_t end, Tree& tree) {
  for (const Leaf& token : tokens) {
    if (begin < token.begin) tree.leaves.push_back({Leaf::Kind::blank, begin, token.begin});
    tree.leaves.push_back(token);
    begin = token.end;
  }
  if (begin < end) tree.leaves.push_back({Leaf::Kind::blank, begin, end});
}

// Reading nothing by a rule tells all it may begin with.
template <class Rule>
std::vector<std::string_view> first_words() {
  const char nothing[] = "";
  std::vector<Node> nodes;
  std::vector<Leaf> tokens;
  Stop stop;
  Builder builder{nothing, nodes, tokens, &stop, nothing};
  matches<Rule>(builder, nothing, nothing);
  std::vector<std::string_view> words;
  for (const Expected& expected : stop.expected) {
    if (expected.literal && grammar::is_lower(expected.text.front())) words.push_back(expected.text);
  }
  std::ranges::sort(words);
  words.erase(std::unique(words.begin(), words.end()), words.end());
  return words;
}

}  // namespace

const std::vector<std::string_view>& leading_words() {
  static const std::vector<std::string_view> words = first_words<grammar::statement>();
  return words;
}

const std::vector<std::string_view>& clause_words() {
  static const std::vector<std::string_view> words = first_words<grammar::clause>();
  return words;
}

std::optional<Stop> LineReader::read(std::uint32_t begin, std::uint32_t end, Tree& tree) {
  const char* const base = bytes_.begin();
  const char* from = base + begin;
  const char* to = base + end;
  tokens_.clear();
  Builder builder{base, tree.nodes, tokens_};
  if (matches<grammar::line>(builder, from, to)) {
    add_leaves(tokens_, begin, end, tree);
    return std::nullopt;
  }
  Stop stop;
  builder.stop = &stop;
  builder.farthest = from;
  matches<grammar::line>(builder, from, to);
  stop.at = builder.offset(builder.farthest);
  std::vector<Node> nodes;
  Builder ahead{base, nodes, tokens_};
  stop.clause_here = matches<grammar::clause>(ahead, builder.farthest, to);
  return stop;
}

std::optional<std::uint32_t> read_speech(std::string_view bytes, std::uint32_t begin, std::uint32_t end,
                                         std::vector<Node>& nodes) {
  std::vector<Leaf> tokens;
  const char* const base = bytes.begin();
  Builder builder{base, nodes, tokens};
  Input in(base + begin, base + end, "");
  while (!in.empty()) {
    if (!peg::parse<grammar::speech_part, peg::nothing, Control>(in, builder)) return builder.offset(in.current());
  }
  return std::nullopt;
}

}  // namespace lensward
