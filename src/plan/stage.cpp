#include "plan/stage.h"

namespace lensward {

const char* name_of(Origin origin) {
  switch (origin) {
    case Origin::said:
      return "said";
    case Origin::bound:
      return "bound";
    case Origin::settled:
      return "settled";
    case Origin::carried:
      return "carried";
    case Origin::assumed:
      return "assumed";
  }
  return "said";
}

const char* spelling(Rig rig) {
  switch (rig) {
    case Rig::sticks:
      return "sticks";
    case Rig::tripod:
      return "tripod";
    case Rig::shoulder:
      return "shoulder";
    case Rig::slider:
      return "slider";
    case Rig::dolly:
      return "dolly";
    case Rig::jib:
      return "jib";
    case Rig::crane:
      return "crane";
    case Rig::stabiliser:
      return "stabiliser";
  }
  return "sticks";
}

bool gives_way(Rig rig) { return rig != Rig::sticks && rig != Rig::tripod; }

}  // namespace lensward
