#include "syntax/verb_forms.h"

namespace lensward {
namespace {

struct Forms {
  std::string_view one, several;
};

// The first words of the verbs in docs/language.md, and `speaks`, which cues use.
constexpr Forms verbs[] = {
    {"aims", "aim"},           {"arcs", "arc"},         {"backs", "back"},     {"booms", "boom"},
    {"brightens", "brighten"}, {"carries", "carry"},    {"cheats", "cheat"},   {"closes", "close"},
    {"comes", "come"},         {"crawls", "crawl"},     {"creeps", "creep"},   {"crosses", "cross"},
    {"crouches", "crouch"},    {"dims", "dim"},         {"does", "do"},        {"drops", "drop"},
    {"enters", "enter"},       {"exits", "exit"},       {"faces", "face"},     {"fades", "fade"},
    {"falls", "fall"},         {"flickers", "flicker"}, {"focuses", "focus"},  {"follows", "follow"},
    {"frames", "frame"},       {"gives", "give"},       {"glances", "glance"}, {"goes", "go"},
    {"hands", "hand"},         {"holds", "hold"},       {"hurries", "hurry"},  {"is", "are"},
    {"keeps", "keep"},         {"kneels", "kneel"},     {"leans", "lean"},     {"leaves", "leave"},
    {"lies", "lie"},           {"lifts", "lift"},       {"looks", "look"},     {"moves", "move"},
    {"opens", "open"},         {"pans", "pan"},         {"perches", "perch"},  {"picks", "pick"},
    {"points", "point"},       {"pours", "pour"},       {"pulls", "pull"},     {"pushes", "push"},
    {"puts", "put"},           {"racks", "rack"},       {"rises", "rise"},     {"runs", "run"},
    {"sits", "sit"},           {"speaks", "speak"},     {"splits", "split"},   {"stands", "stand"},
    {"steps", "step"},         {"stops", "stop"},       {"strolls", "stroll"}, {"sweeps", "sweep"},
    {"takes", "take"},         {"tilts", "tilt"},       {"touches", "touch"},  {"tracks", "track"},
    {"turns", "turn"},         {"waits", "wait"},       {"walks", "walk"},     {"watches", "watch"},
    {"wears", "wear"},         {"zooms", "zoom"},
};

}  // namespace

std::string_view verb_of_one(std::string_view verb) {
  for (const Forms& forms : verbs) {
    if (forms.several == verb) return forms.one;
  }
  return verb;
}

std::string_view verb_of_several(std::string_view verb) {
  for (const Forms& forms : verbs) {
    if (forms.one == verb) return forms.several;
  }
  return verb;
}

}  // namespace lensward
