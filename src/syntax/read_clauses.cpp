#include <utility>

// Cues and clauses.
#include "syntax/read_parts.h"

namespace lensward {
namespace {

std::optional<int> read_ordinal(const NodeView& moment) {
  const auto ordinal = moment.child(NodeKind::ordinal);
  if (!ordinal) return std::nullopt;
  const std::string_view word = ordinal->text();
  return word.ends_with("first") ? 1 : word.ends_with("second") ? 2 : word.ends_with("third") ? 3 : -1;
}

CuePoint read_moment(const NodeView& moment) {
  CuePoint point;
  point.span = moment.span();
  if (const auto anchor = moment.child(NodeKind::anchor)) {
    point.kind = CuePoint::Kind::mark;
    point.name = read_name(*anchor);
    return point;
  }
  point.ordinal = read_ordinal(moment);
  point.words = read_quoted(moment.the(NodeKind::text));
  if (const auto whose = moment.child(NodeKind::whose)) point.of = read_name(whose->only());
  return point;
}

CuePoint read_deed(const NodeView& deed) {
  CuePoint point;
  point.span = deed.span();
  point.kind = CuePoint::Kind::deed;
  if (const auto name = deed.child(NodeKind::path)) point.name = read_name(*name);
  if (const auto verb = deed.child(NodeKind::verb)) point.verb = verb->words();
  return point;
}

// The point a cue of any kind hangs from.
CuePoint point_below(const NodeView& node) {
  for (const NodeView& child : node.children()) {
    if (child.kind() == NodeKind::moment || child.kind() == NodeKind::deed) return read_point(child);
  }
  return {};
}

ClauseBody read_cue(const NodeView& node, Cue::Kind kind) {
  Cue cue;
  cue.kind = kind;
  cue.span = node.span();
  if (const auto offset = node.child(NodeKind::amount)) cue.offset = read_amount(*offset);
  cue.point = point_below(node);
  return CueClause{cue};
}

ClauseBody read_to(const NodeView& node) {
  ToClause to;
  const NodeView goal = node.only();
  if (goal.kind() == NodeKind::size) {
    to.size = read_shot_size(goal.the(NodeKind::shot_size));
    if (const auto on = goal.child(NodeKind::on_whom)) to.on = read_names(*on);
  } else if (goal.kind() == NodeKind::amount) {
    to.amount = read_amount(goal);
  } else {
    to.place = read_place(goal);
  }
  return to;
}

ClauseBody read_shift(const NodeView& node) {
  const NodeView inner = node.only();
  if (inner.kind() == NodeKind::amount) return ShiftClause{read_amount(inner), {}};
  Place place = read_place(inner);
  place.measure.reset();
  return ShiftClause{read_amount(inner.only()), std::move(place)};
}

ClauseBody read_where(const NodeView& node) {
  const NodeView inner = node.only();
  if (inner.kind() == NodeKind::on_rig) return RigClause{std::string(inner.only().text())};
  return WhereClause{read_place(inner)};
}

ClauseBody read_route(const NodeView& node) {
  RouteClause route;
  switch (node.kind()) {
    case NodeKind::route_via:
      route.kind = RouteClause::Kind::via;
      break;
    case NodeKind::route_round:
      route.kind = node.text().starts_with("past") ? RouteClause::Kind::past : RouteClause::Kind::round;
      break;
    case NodeKind::route_passing:
      route.kind = RouteClause::Kind::passing;
      break;
    case NodeKind::route_from:
      route.kind = RouteClause::Kind::from;
      if (const auto to = node.child(NodeKind::to_spot)) route.to = read_place(to->only());
      break;
    default:  // route_by
      route.kind = node.text().ends_with("panning")    ? RouteClause::Kind::by_panning
                   : node.text().ends_with("tilting")  ? RouteClause::Kind::by_tilting
                   : node.text().ends_with("tracking") ? RouteClause::Kind::by_tracking
                                                       : RouteClause::Kind::by_zooming;
      return route;
  }
  route.place = read_place(node.only());
  return route;
}

std::optional<Side> side_of(const NodeView& node) {
  const auto to_side = node.child(NodeKind::to_side);
  return to_side ? std::optional(read_side(to_side->only())) : std::nullopt;
}

ClauseBody read_facing(const NodeView& node) {
  FacingClause facing;
  const NodeView inner = node.only();
  if (inner.kind() == NodeKind::facing_away) {
    facing.away_from = true;
    facing.at = read_place(inner.only());
  } else if (inner.kind() == NodeKind::off_lens) {
    facing.off_lens = read_amount(inner.only());
    facing.toward_frame = side_of(inner);
  } else {
    facing.at = read_place(inner);
  }
  return facing;
}

ClauseBody read_body_clause(const NodeView& node) {
  BodyClause body;
  const NodeView view = node.only();
  body.view = view.kind() == NodeKind::back_to_lens ? BodyView::back : word_of<BodyView>(view.words());
  if (const auto to = node.child(NodeKind::view_to)) {
    body.toward_frame = side_of(*to);
    if (const auto thing = to->child(NodeKind::thing)) body.toward = read_thing(*thing);
  }
  if (const auto of = node.child(NodeKind::of_camera)) body.camera = read_name(of->only());
  return body;
}

ClauseBody read_hands(const NodeView& node) {
  const NodeView inner = node.only();
  if (inner.kind() == NodeKind::both_hands) return HandsClause{HandsClause::Kind::both, {}};
  if (inner.kind() == NodeKind::names) return HandsClause{HandsClause::Kind::with, read_names(inner)};
  const bool left = read_side(inner.only()) == Side::left;
  return HandsClause{left ? HandsClause::Kind::left : HandsClause::Kind::right, {}};
}

ClauseBody read_measure(const NodeView& node) {
  const auto word = node.child(NodeKind::measure_word);
  const std::string_view written = word ? word->text() : node.the(NodeKind::along_apart).text();
  return MeasureClause{written == "color" ? "colour" : std::string(written), read_amount(node.the(NodeKind::amount))};
}

ClauseBody read_dims(const NodeView& node) {
  DimsClause dims;
  dims.gate = node.text().starts_with("gate");
  for (const NodeView& quantity : node.children()) dims.figures.push_back(read_quantity(quantity));
  return dims;
}

ClauseBody read_lens(const NodeView& node) {
  const NodeView inner = node.only();
  if (inner.kind() == NodeKind::quantity) return LensClause{read_quantity(inner), {}};
  return LensClause{{}, read_name(inner)};
}

ClauseBody read_stop(const NodeView& node) {
  StopClause stop;
  stop.widest = node.text().starts_with("widest");
  const std::string_view value = node.only().text();
  stop.t_stop = value.starts_with('T');
  stop.number = read_digits(value.substr(stop.t_stop ? 1 : 2));
  return stop;
}

ClauseBody read_focus(const NodeView& node) {
  const NodeView inner = node.only();
  if (inner.kind() == NodeKind::amount) return FocusClause{read_amount(inner), {}};
  return FocusClause{{}, read_things(inner).front()};
}

ClauseBody read_gives(const NodeView& node) {
  const std::vector<NodeView> quantities = node.children();
  GivesClause gives{read_quantity(quantities[0]), {}};
  if (quantities.size() > 1) gives.range = read_quantity(quantities[1]);
  return gives;
}

ClauseBody read_of(const NodeView& node) {
  const NodeView inner = node.only();
  return OfClause{inner.kind() == NodeKind::a_camera, read_names(inner)};
}

ClauseBody read_label(const NodeView& node) {
  LabelClause label;
  const std::string_view word = node.text();
  if (const auto name = node.child(NodeKind::bare_name)) label.name = read_name(*name);
  if (const auto text = node.child(NodeKind::text)) label.quoted = read_quoted(*text);
  label.kind = word.starts_with("called")     ? LabelClause::Kind::called
               : word.starts_with("language") ? LabelClause::Kind::language
               : word.starts_with("because")  ? LabelClause::Kind::because
               : word.starts_with("named")    ? LabelClause::Kind::named
               : word.starts_with("mark")     ? LabelClause::Kind::mark
                                              : LabelClause::Kind::extra;
  return label;
}

ClauseBody read_voice(const NodeView& node) {
  VoiceClause voice;
  switch (node.kind()) {
    case NodeKind::loudness:
      voice.loudness = word_of<Loudness>(node.text());
      break;
    case NodeKind::voice_off:
      voice.kind = VoiceClause::Kind::off;
      break;
    case NodeKind::trailing_off:
      voice.kind = VoiceClause::Kind::trailing_off;
      break;
    case NodeKind::cutting_in:
      voice.kind = VoiceClause::Kind::cutting_in;
      break;
    default:  // cut_off
      voice.kind = VoiceClause::Kind::cut_off;
      voice.at = read_point(node.only());
  }
  return voice;
}

// Clauses of one word, or of a fixed few.
ClauseBody read_fixed_words(const NodeView& node) {
  const std::string words = node.words();
  switch (node.kind()) {
    case NodeKind::posture:
      return PostureClause{word_of<Posture>(words)};
    case NodeKind::pace:
      return PaceClause{words == "slowly" ? Pace::slowly : words == "briskly" ? Pace::briskly : Pace::hurrying};
    case NodeKind::scale:
      return ScaleClause{words == "small" ? Scale::small : words == "busy" ? Scale::busy : Scale::large};
    case NodeKind::strength:
      return StrengthClause{words == "just"       ? StrengthClause::Kind::just
                            : words == "outright" ? StrengthClause::Kind::outright
                                                  : StrengthClause::Kind::in_plain_sight};
    case NodeKind::stay:
      return StayClause{words == "runs on" ? StayClause::Kind::runs_on
                        : words == "fixed" ? StayClause::Kind::fixed
                                           : StayClause::Kind::touching};
    case NodeKind::trait_word:
      return TraitClause{words, ""};
    case NodeKind::trait_tone:
    case NodeKind::trait_tape:
      return TraitClause{words.substr(0, words.find(' ')), std::string(node.only().text())};
    default:
      return PieceClause{word_of<PieceKind>(words)};
  }
}

ClauseBody read_filing(const NodeView& node) {
  switch (node.kind()) {
    case NodeKind::filed_number:
      return FilingClause{FilingClause::Kind::number, std::string(node.only().text())};
    case NodeKind::doors:
      return FilingClause{node.text() == "interior" ? FilingClause::Kind::interior : FilingClause::Kind::exterior,
                          std::string(node.text())};
    case NodeKind::hour:
      return FilingClause{FilingClause::Kind::hour, std::string(node.text())};
    default:  // pages
      const std::string words = node.words();
      return FilingClause{FilingClause::Kind::pages, words.substr(0, words.find_last_of("0123456789") + 1)};
  }
}

ClauseBody read_clause_body(const NodeView& node) {
  switch (node.kind()) {
    case NodeKind::cue_on:
      return read_cue(node, Cue::Kind::on);
    case NodeKind::cue_as:
      return read_cue(node, Cue::Kind::as);
    case NodeKind::cue_midway:
      return read_cue(node, Cue::Kind::midway);
    case NodeKind::cue_after:
      return read_cue(node, Cue::Kind::after);
    case NodeKind::cue_before:
      return read_cue(node, Cue::Kind::before);
    case NodeKind::cue_into:
      return read_cue(node, Cue::Kind::into);
    case NodeKind::cue_from_top:
      return read_cue(node, Cue::Kind::from_top);
    case NodeKind::cue_at_end:
      return read_cue(node, Cue::Kind::at_end);
    case NodeKind::until:
      return UntilClause{read_point(node.only())};
    case NodeKind::while_deed:
      return WhileClause{read_point(node.only())};
    case NodeKind::length:
      return LengthClause{node.text().starts_with("over"), read_amount(node.only())};
    case NodeKind::to_goal:
      return read_to(node);
    case NodeKind::at_spot:
      return AtClause{read_place(node.only())};
    case NodeKind::shift:
      return read_shift(node);
    case NodeKind::where:
      return read_where(node);
    case NodeKind::route_via:
    case NodeKind::route_round:
    case NodeKind::route_passing:
    case NodeKind::route_from:
    case NodeKind::route_by:
      return read_route(node);
    case NodeKind::facing:
      return read_facing(node);
    case NodeKind::body:
      return read_body_clause(node);
    case NodeKind::lean:
      return LeanClause{read_name(node.only())};
    case NodeKind::size: {
      SizeClause size{read_shot_size(node.only()), {}};
      if (const auto on = node.child(NodeKind::on_whom)) size.on = read_names(*on);
      return size;
    }
    case NodeKind::hands:
      return read_hands(node);
    case NodeKind::measure:
      return read_measure(node);
    case NodeKind::dims:
      return read_dims(node);
    case NodeKind::with_lens:
      return read_lens(node);
    case NodeKind::with_stop:
      return read_stop(node);
    case NodeKind::with_focus:
      return read_focus(node);
    case NodeKind::aims:
      return AimsClause{read_place(node.only())};
    case NodeKind::gives:
      return read_gives(node);
    case NodeKind::front:
      return FrontClause{read_compass(node.only())};
    case NodeKind::hangs:
      return HangsClause{read_amount(node.only())};
    case NodeKind::of_whom:
      return read_of(node);
    case NodeKind::called:
    case NodeKind::named:
    case NodeKind::filed_extra:
      return read_label(node);
    case NodeKind::loudness:
    case NodeKind::voice_off:
    case NodeKind::trailing_off:
    case NodeKind::cutting_in:
    case NodeKind::cut_off:
      return read_voice(node);
    case NodeKind::filed_number:
    case NodeKind::doors:
    case NodeKind::hour:
    case NodeKind::pages:
      return read_filing(node);
    default:
      return read_fixed_words(node);
  }
}

}  // namespace

CuePoint read_point(const NodeView& node) {
  return node.kind() == NodeKind::moment ? read_moment(node) : read_deed(node);
}

Clause read_clause(const NodeView& clause) { return {read_clause_body(clause.only()), clause.span()}; }

Clauses read_clauses(const NodeView& node) {
  Clauses clauses;
  for (const NodeView& clause : node.children(NodeKind::clause)) clauses.push_back(read_clause(clause));
  return clauses;
}

}  // namespace lensward
