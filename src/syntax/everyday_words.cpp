#include "syntax/everyday_words.h"

#include <algorithm>
#include <span>

#include "syntax/verb_forms.h"

namespace lensward {
namespace {

using Kind = EverydayVerb::Kind;

struct Row {
  std::string_view said, instead;
  Kind kind = Kind::deed;
};

// With a particle before without.
constexpr Row people[] = {
    {"goes in", "enters"},
    {"goes inside", "enters"},
    {"goes out", "leaves"},
    {"goes off", "leaves"},
    {"goes away", "leaves"},
    {"goes back", "walks", Kind::going},
    {"comes back", "walks", Kind::going},
    {"goes", "walks", Kind::going},
    {"comes out", "walks", Kind::going},
    {"comes", "walks", Kind::going},
    {"moves", "walks", Kind::going},
    {"heads", "walks", Kind::going},
    {"marches", "walks", Kind::going},
    {"strides", "walks", Kind::going},
    {"returns", "walks", Kind::going},
    {"proceeds", "walks", Kind::going},
    {"advances", "walks", Kind::going},
    {"travels", "walks", Kind::going},
    {"emerges", "walks", Kind::going},
    {"approaches", "walks to", Kind::going},
    {"joins", "walks to", Kind::going},
    {"wanders", "strolls", Kind::going},
    {"ambles", "strolls", Kind::going},
    {"saunters", "strolls", Kind::going},
    {"rushes", "hurries", Kind::going},
    {"dashes", "runs", Kind::going},
    {"jogs", "runs", Kind::going},
    {"races", "runs", Kind::going},
    {"sprints", "runs", Kind::going},
    {"sneaks", "creeps", Kind::going},
    {"slips", "creeps", Kind::going},
    {"tiptoes", "creeps", Kind::going},
    {"retreats", "backs", Kind::going},
    {"withdraws", "backs", Kind::going},
    {"arrives", "enters"},
    {"appears", "enters"},
    {"departs", "leaves"},
    {"disappears", "leaves"},
    {"gets up", "rises"},
    {"squats", "crouches"},
    {"stays", "waits"},
    {"remains", "waits"},
    {"pauses", "waits"},
    {"halts", "stops"},
    {"spins", "turns"},
    {"swivels", "turns"},
    {"pivots", "turns"},
    {"rotates", "turns"},
    {"stares", "looks"},
    {"gazes", "looks"},
    {"glares", "looks"},
    {"peers", "looks"},
    {"sees", "looks at"},
    {"notices", "looks at"},
    {"eyes", "looks at"},
    {"observes", "watches"},
    {"studies", "watches"},
    {"regards", "watches"},
    {"grabs", "takes"},
    {"snatches", "takes"},
    {"seizes", "takes"},
    {"grasps", "takes"},
    {"fetches", "takes"},
    {"collects", "takes"},
    {"gets", "takes"},
    {"picks", "takes"},
    {"places", "puts"},
    {"sets", "puts"},
    {"lays", "puts"},
    {"passes", "gives"},
    {"offers", "gives"},
    {"shuts", "closes"},
    {"presses", "pushes"},
    {"shoves", "pushes"},
    {"drags", "pulls"},
    {"tugs", "pulls"},
    {"grips", "holds"},
    {"clutches", "holds"},
    {"releases", "drops"},
    {"says", "", Kind::speech},
    {"tells", "", Kind::speech},
    {"asks", "", Kind::speech},
    {"talks", "", Kind::speech},
    {"speaks", "", Kind::speech},
    {"answers", "", Kind::speech},
    {"replies", "", Kind::speech},
    {"whispers", "", Kind::speech},
    {"shouts", "", Kind::speech},
    {"yells", "", Kind::speech},
};

// Verbs of everyday business that are one letter away from a verb of the language.
constexpr std::string_view business[] = {
    "books",  "cleans", "cries",  "cuts",  "dries",  "fails",  "feels",  "fills",  "fights", "fixes",  "folds",
    "helps",  "hits",   "kisses", "leads", "lets",   "licks",  "lights", "likes",  "lives",  "locks",  "loses",
    "loves",  "packs",  "paints", "pants", "pats",   "paws",   "pets",   "plants", "plays",  "prints", "raises",
    "reads",  "rests",  "rinses", "rubs",  "shakes", "shows",  "sighs",  "sings",  "sinks",  "slaps",  "smiles",
    "spills", "spits",  "starts", "stirs", "tastes", "tears",  "tries",  "wakes",  "wants",  "warms",  "washes",
    "waves",  "weeps",  "winds",  "wipes", "works",  "writes",
};

constexpr Row cameras[] = {
    {"shows", "frames"},
    {"shoots", "frames"},
    {"films", "frames"},
    {"sees", "frames"},
    {"goes", "moves"},
    {"walks", "moves"},
    {"travels", "moves"},
    {"dollies in", "pushes in"},
    {"dollies out", "pulls back"},
    {"dollies back", "pulls back"},
    {"dollies", "moves"},
    {"pushes", "pushes in"},
    {"pulls out", "pulls back"},
    {"pulls away", "pulls back"},
    {"pulls", "pulls back"},
    {"trucks", "tracks"},
    {"slides", "tracks"},
    {"orbits", "arcs"},
    {"circles", "arcs"},
    {"cranes", "booms"},
    {"rises", "booms up"},
    {"lowers", "booms down"},
    {"turns", "pans"},
    {"swings", "pans"},
    {"racks", "racks focus"},
};

constexpr Row lights[] = {
    {"turns on", "comes on"},  {"switches on", "comes on"},  {"goes on", "comes on"},  {"lights up", "comes on"},
    {"turns off", "goes out"}, {"switches off", "goes out"}, {"goes off", "goes out"}, {"darkens", "dims"},
    {"points", "aims"},        {"blinks", "flickers"},
};

constexpr std::string_view pronouns[] = {"i",    "me",   "my",   "mine",  "we",     "us",      "our",     "you",
                                         "your", "he",   "him",  "his",   "she",    "her",     "hers",    "it",
                                         "its",  "they", "them", "their", "theirs", "himself", "herself", "themselves"};

struct Beginning {
  std::string_view said, instead;
};
constexpr Beginning beginnings[] = {
    {"when", "as"},       {"whenever", "as"},      {"once", "after"},       {"during", "while"}, {"till", "until"},
    {"above", "over"},    {"atop", "on"},          {"upon", "on"},          {"onto", "on"},      {"below", "under"},
    {"beneath", "under"}, {"underneath", "under"}, {"alongside", "beside"}, {"through", "by"},   {"into", "in"},
};

constexpr Beginning paces[] = {
    {"slowly", "slowly"}, {"slow", "slowly"},     {"gently", "slowly"},      {"quickly", "briskly"},
    {"fast", "briskly"},  {"rapidly", "briskly"}, {"swiftly", "briskly"},    {"briskly", "briskly"},
    {"quick", "briskly"}, {"hastily", "briskly"}, {"hurriedly", "hurrying"},
};

std::span<const Row> rows_of(VerbsOf whose) {
  switch (whose) {
    case VerbsOf::cameras:
      return cameras;
    case VerbsOf::lights:
      return lights;
    case VerbsOf::people:
      break;
  }
  return people;
}

std::string_view first_word(std::string_view words) { return words.substr(0, words.find(' ')); }

// "cry" for "cries", "go off" for "goes off": what several do.
std::string for_several(std::string_view said) {
  std::string_view word = first_word(said);
  const std::string rest(said.substr(word.size()));
  const std::string known(verb_of_several(word));
  if (known != word) return known + rest;
  if (word.ends_with("ies")) return std::string(word.substr(0, word.size() - 3)) + 'y' + rest;
  const bool hissing = word.ends_with("sses") || word.ends_with("shes") || word.ends_with("ches") ||
                       word.ends_with("xes") || word == "goes";
  return std::string(word.substr(0, word.size() - (hissing ? 2 : 1))) + rest;
}

std::optional<EverydayVerb> find_words(VerbsOf whose, std::string_view verb) {
  for (const Row& row : rows_of(whose)) {
    if (row.said == verb) return EverydayVerb{row.kind, std::string(verb), std::string(row.instead)};
    if (for_several(row.said) != verb) continue;
    return EverydayVerb{row.kind, std::string(verb), row.instead.empty() ? "" : for_several(row.instead)};
  }
  return std::nullopt;
}

}  // namespace

std::optional<EverydayVerb> everyday_verb(VerbsOf whose, std::string_view verb) {
  if (auto found = find_words(whose, verb)) return found;
  if (auto found = find_words(whose, first_word(verb))) return found;
  const bool is_business = whose == VerbsOf::people && std::ranges::any_of(business, [verb](std::string_view said) {
                             return said == first_word(verb) || for_several(said) == first_word(verb);
                           });
  return is_business ? std::optional{EverydayVerb{Kind::business, std::string(verb), {}}} : std::nullopt;
}

bool is_pronoun(std::string_view word) { return std::ranges::find(pronouns, word) != std::end(pronouns); }

bool is_all(std::string_view word) {
  return word == "all" || word == "both" || word == "everybody" || word == "everyone";
}

bool is_language_verb(std::string_view word) { return verb_of_one(word) != word || verb_of_several(word) != word; }

std::string_view everyday_pace(std::string_view word) {
  const auto* const found = std::ranges::find(paces, word, &Beginning::said);
  return found == std::end(paces) ? std::string_view{} : found->instead;
}

std::string_view everyday_clause(std::string_view word) {
  const auto* const found = std::ranges::find(beginnings, word, &Beginning::said);
  return found == std::end(beginnings) ? std::string_view{} : found->instead;
}

}  // namespace lensward
