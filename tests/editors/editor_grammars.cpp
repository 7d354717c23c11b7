// Makes the grammars that editors colour by, from the words of the parser's own grammar.
//   editor_grammars FOLDER           writes staging.tmLanguage.json and staging.vim
//   editor_grammars --check FOLDER   says which of them differ, and exits with 1
#include <cstdio>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>
#include <set>
#include <string>
#include <tao/pegtl.hpp>
#include <utility>

#include "grammar/staging.hpp"
#include "syntax/reading.h"
#include "syntax/units.h"
#include "syntax/verb_forms.h"

namespace lensward {
namespace {

using Words = std::set<std::string>;

// Rules derive from what they are made of, so it is rule_t that is a list of words.
template <class Made>
struct WordsOf {
  static void add(Words&) {}
};
template <grammar::Spelling... S>
struct WordsOf<grammar::lex::word_of<S...>> {
  static void add(Words& words) { (words.insert(std::string(S.view())), ...); }
};

// Each rule once; the library's own visitor needs a minute and a half of the compiler for the same.
template <class Rule>
void add_words(Words& words);

template <class... Rules>
void add_each(tao::pegtl::type_list<Rules...>, Words& words) {
  (add_words<Rules>(words), ...);
}

template <class Rule>
void add_words(Words& words) {
  static bool been_here = false;
  if (std::exchange(been_here, true)) return;
  WordsOf<typename Rule::rule_t>::add(words);
  add_each(typename Rule::subs_t{}, words);
  // A token's lexeme is no rule below it, as far as the library knows.
  if constexpr (requires { typename Rule::lexeme; }) add_words<typename Rule::lexeme>(words);
}

Words words_of_the_grammar() {
  Words words;
  add_words<grammar::line>(words);
  add_words<grammar::speech_part>(words);
  return words;
}

// "a|b|c", longer words first where one begins another.
std::string alternatives(const Words& words) {
  std::string text;
  for (auto word = words.rbegin(); word != words.rend(); ++word) text += (text.empty() ? "" : "|") + *word;
  return text;
}

struct Tables {
  Words headings = {"beat", "company", "film", "kit", "opening", "scene", "set", "staging", "way"};
  Words leading, words, units;

  Tables() : words(words_of_the_grammar()) {
    for (const std::string_view word : leading_words()) {
      if (!headings.contains(std::string(word))) leading.emplace(word);
    }
    for (const std::string_view unit : unit_words()) units.emplace(unit);
  }
};

std::string text_mate(const Tables& tables) {
  using Json = nlohmann::ordered_json;
  // A word ends where the language's words end: not before a letter, digit, `_`, or `-` with more behind it.
  const std::string before = "(?<![\\w-])";
  const std::string after = "(?![\\w]|-\\w)";
  const auto words = [&](const Words& of) { return before + "(?:" + alternatives(of) + ")" + after; };
  const auto rule = [](const std::string& name, const std::string& match) {
    return Json{{"name", name + ".staging"}, {"match", match}};
  };
  Json patterns = Json::array();
  patterns.push_back(rule("invalid.illegal.merge", "^[ \\t]*(?:<{7}|\\|{7}|={7}|>{7}).*$"));
  for (const auto& [open, close] :
       {std::pair("\"", "\""), std::pair("“", "”"), std::pair("«", "»"), std::pair("「", "」")}) {
    patterns.push_back({{"name", "string.quoted.staging"},
                        {"begin", open},
                        {"end", std::string(close) + "|$"},
                        {"patterns", Json::array({rule("constant.other.mark", "\\[[^\\]\"]*\\]")})}});
  }
  patterns.push_back(rule("comment.line.double-dash", "--.*$"));
  patterns.push_back(rule("keyword.other.heading", "^[ \\t]*" + words(tables.headings)));
  patterns.push_back(rule("keyword.control", "^[ \\t]*" + words(tables.leading)));
  patterns.push_back(rule("constant.other.mark", "\\[[^\\]]*\\]"));
  patterns.push_back(rule("entity.name", before + "(?:[A-Z]|[^\\W\\x00-\\x7F])[\\w'’.-]*"));
  patterns.push_back(
      rule("constant.numeric", "[-+−]?\\d+(?:\\.\\d+)?(?:[ \\t]*(?:" + alternatives(tables.units) + ")(?![\\w/]))?"));
  patterns.push_back(rule("keyword.other", words(tables.words)));
  const Json grammar = {{"name", "Staging"},
                        {"scopeName", "source.staging"},
                        {"fileTypes", Json::array({"staging"})},
                        {"patterns", std::move(patterns)}};
  return grammar.dump(2) + "\n";
}

std::string vim_words(const std::string& group, const Words& words) {
  std::string text;
  std::string line;
  const std::string start = "syntax keyword " + group;
  for (const std::string& word : words) {
    if (line.size() + word.size() > 110) {
      text += line + "\n";
      line.clear();
    }
    line += (line.empty() ? start : "") + " " + word;
  }
  return text + line + "\n";
}

std::string vim_alternatives(const Words& words) {
  std::string text;
  for (auto word = words.rbegin(); word != words.rend(); ++word) text += (text.empty() ? "" : "\\|") + *word;
  return text;
}

std::string vim(const Tables& tables) {
  return "\" Made by editor_grammars from the grammar of the staging language.\n"
         "if exists('b:current_syntax')\n  finish\nendif\n\n"
         "syntax iskeyword @,48-57,_,-,192-255\n"
         "syntax match stagingName /\\<[[:upper:]][[:alnum:]_'’.-]*/\n"
         "syntax match stagingName /[^\\x01-\\x7f“”«»「」…−’　][^\\x01-\\x2c“”«»「」…−　\\/:\\]]*/\n" +
         vim_words("stagingWord", tables.words) + "syntax match stagingLead /^\\s*\\%(" +
         vim_alternatives(tables.leading) +
         "\\)\\>/\n"
         "syntax match stagingHeading /^\\s*\\%(" +
         vim_alternatives(tables.headings) +
         "\\)\\>/\n"
         "syntax match stagingNumber /[-+−]\\?\\<\\d\\+\\%(\\.\\d\\+\\)\\?/\n"
         "syntax match stagingMark /\\[[^\\]]*\\]/\n"
         "syntax region stagingText start=/\"/ end=/\"/ end=/$/ contains=stagingMark oneline\n"
         "syntax region stagingText start=/“/ end=/”/ end=/$/ contains=stagingMark oneline\n"
         "syntax region stagingText start=/«/ end=/»/ end=/$/ contains=stagingMark oneline\n"
         "syntax region stagingText start=/「/ end=/」/ end=/$/ contains=stagingMark oneline\n"
         "syntax match stagingComment /--.*$/\n"
         "syntax match stagingMerge /^\\s*\\%(<<<<<<<\\|=======\\|>>>>>>>\\||||||||\\).*$/\n\n"
         "highlight default link stagingName Identifier\n"
         "highlight default link stagingWord Keyword\n"
         "highlight default link stagingLead Statement\n"
         "highlight default link stagingHeading Title\n"
         "highlight default link stagingNumber Number\n"
         "highlight default link stagingMark Special\n"
         "highlight default link stagingText String\n"
         "highlight default link stagingComment Comment\n"
         "highlight default link stagingMerge Error\n\n"
         "let b:current_syntax = 'staging'\n";
}

std::string text_of_file(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

int run(const std::string& folder, bool check) {
  const Tables tables;
  const std::pair<std::string, std::string> files[] = {{folder + "/staging.tmLanguage.json", text_mate(tables)},
                                                       {folder + "/staging.vim", vim(tables)}};
  int differing = 0;
  for (const auto& [path, text] : files) {
    if (!check) {
      std::ofstream(path, std::ios::binary) << text;
    } else if (text_of_file(path) != text) {
      std::printf("%s is not what the grammar makes it; run editor_grammars %s\n", path.c_str(), folder.c_str());
      ++differing;
    }
  }
  return differing == 0 ? 0 : 1;
}

}  // namespace
}  // namespace lensward

int main(int count, char** arguments) {
  const bool check = count == 3 && std::string(arguments[1]) == "--check";
  if (count != 2 && !check) {
    std::fputs("usage: editor_grammars [--check] FOLDER\n", stderr);
    return 2;
  }
  return lensward::run(arguments[count - 1], check);
}
