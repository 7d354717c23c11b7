// Whole lines.
#include <algorithm>
#include <iterator>
#include <map>
#include <utility>

#include "syntax/read_parts.h"
#include "syntax/reading.h"

namespace lensward {
namespace {

std::optional<Quoted> text_below(const NodeView& node) {
  const auto text = node.child(NodeKind::text);
  return text ? std::optional(read_quoted(*text)) : std::nullopt;
}

Name name_below(const NodeView& node) { return read_names(node).front(); }

FileKind read_file_kind(std::string_view word) {
  static const std::map<std::string_view, FileKind> kinds = {{"film", FileKind::film},
                                                             {"company", FileKind::company},
                                                             {"kit", FileKind::kit},
                                                             {"set", FileKind::set},
                                                             {"scene", FileKind::scene}};
  return kinds.at(word);
}

// No version has as many digits as an int; what is written is newer than any.
int version_part(std::string_view digits) {
  constexpr double most = 999'999;
  return static_cast<int>(std::min(read_digits(digits), most));
}

LineBody read_header(const NodeView& line) {
  const std::string_view version = line.the(NodeKind::version).text();
  const std::size_t dot = version.find('.');
  return HeaderLine{version_part(version.substr(0, dot)), version_part(version.substr(dot + 1)),
                    read_file_kind(line.the(NodeKind::file_kind).text())};
}

LineBody read_heading(const NodeView& line) {
  using Kind = HeadingLine::Kind;
  HeadingLine heading;
  heading.title = text_below(line);
  heading.clauses = read_clauses(line);
  const std::vector<Name> names = read_names(line);
  if (line.kind() == NodeKind::opening) {
    heading.kind = Kind::opening;
    if (!names.empty()) heading.of = names[0];
    return heading;
  }
  heading.name = names[0];
  if (line.kind() == NodeKind::way) {
    heading.kind = Kind::way;
    heading.of = names[1];
  } else if (line.kind() == NodeKind::scene) {
    heading.kind = Kind::scene;
  } else {
    static const std::map<std::string_view, Kind> kinds = {
        {"film", Kind::film}, {"company", Kind::company}, {"kit", Kind::kit}, {"set", Kind::set}, {"beat", Kind::beat}};
    heading.kind = kinds.at(line.the(NodeKind::heading_word).text());
  }
  return heading;
}

LineBody read_use(const NodeView& line) {
  const UseLine::Kind kind = line.kind() == NodeKind::bring_in  ? UseLine::Kind::use
                             : line.text().starts_with("order") ? UseLine::Kind::order
                                                                : UseLine::Kind::font;
  return UseLine{kind, read_quoted(line.the(NodeKind::text)), read_clauses(line)};
}

LineBody read_room(const NodeView& line) {
  RoomLine room;
  for (const NodeView& quantity : line.children(NodeKind::quantity)) room.figures.push_back(read_quantity(quantity));
  room.clauses = read_clauses(line);
  return room;
}

LineBody read_declaration(const NodeView& line) {
  using Kind = DeclarationLine::Kind;
  const std::string_view word = line.the(NodeKind::kind).text();
  if (word == "person") return PeopleLine{read_names(line), false, read_clauses(line)};
  static const std::map<std::string_view, Kind> kinds = {
      {"group", Kind::group}, {"crowd", Kind::crowd}, {"story", Kind::story},   {"camera", Kind::camera},
      {"lens", Kind::lens},   {"light", Kind::light}, {"prop", Kind::prop},     {"furniture", Kind::furniture},
      {"wall", Kind::wall},   {"door", Kind::door},   {"window", Kind::window}, {"area", Kind::area}};
  return DeclarationLine{kinds.at(word), name_below(line), read_clauses(line)};
}

LineBody read_setting(const NodeView& line) {
  SettingLine setting;
  const NodeView key = line.only();
  setting.key = {key.words(), key.span()};
  setting.clauses = read_clauses(line);
  if (line.kind() == NodeKind::weigh) {
    setting.kind = SettingLine::Kind::weigh;
    const Figure figure = read_quantity(line.the(NodeKind::quantity));
    setting.amount = Amount{Amount::Form::exact, figure, {}, figure.span};
  } else if (line.kind() == NodeKind::treat) {
    setting.kind = SettingLine::Kind::treat;
    setting.words = line.the(NodeKind::severity).text();
  } else if (line.kind() == NodeKind::sizing) {
    setting.kind = SettingLine::Kind::sizing;
  } else {
    if (const auto amount = line.child(NodeKind::amount)) setting.amount = read_amount(*amount);
    if (const auto words = line.child(NodeKind::free_words)) setting.words = words->words();
    if (const auto ref = line.child(NodeKind::path)) setting.ref = read_name(*ref);
    setting.quoted = text_below(line);
  }
  return setting;
}

LineBody read_change(const NodeView& line) {
  const NodeView words = line.the(NodeKind::old_words);
  Span span = words.span();
  const std::string_view text = words.text();
  span.end = span.begin + static_cast<std::uint32_t>(text.find_last_not_of(" \t") + 1);
  return ChangeLine{line.kind() == NodeKind::without, {std::string(text.substr(0, span.end - span.begin)), span}};
}

LineBody read_favour(const NodeView& line) {
  IntentLine intent;
  if (line.child(NodeKind::nobody)) intent.kind = IntentLine::Kind::favour_nobody;
  intent.names = read_names(line);
  if (const auto ahead = line.child(NodeKind::ahead)) intent.ahead_of = read_names(*ahead);
  intent.clauses = read_clauses(line);
  return intent;
}

IntentLine::Kind intent_kind(const NodeView& line) {
  using Kind = IntentLine::Kind;
  const std::string_view text = line.text();
  switch (line.kind()) {
    case NodeKind::share:
      return Kind::share;
    case NodeKind::pass:
      return Kind::pass;
    case NodeKind::play_on:
      return Kind::play;
    case NodeKind::throw_away:
      return Kind::throw_away;
    case NodeKind::plant:
      return text.starts_with("plant") ? Kind::plant : Kind::pay_off;
    case NodeKind::hide:
      return text.starts_with("hide") ? Kind::hide : text.starts_with("hint") ? Kind::hint : Kind::reveal;
    case NodeKind::draw_eye:
      return Kind::draw_the_eye;
    case NodeKind::settle:
      return Kind::settle;
    default:
      return Kind::button;
  }
}

LineBody read_intent(const NodeView& line) {
  IntentLine intent;
  intent.kind = intent_kind(line);
  // What is played or thrown away: quoted words, or a label. A label stands first among the names.
  if (const auto speech = line.child(NodeKind::a_speech)) {
    intent.words = text_below(*speech);
    if (const auto whose = speech->child(NodeKind::whose)) intent.whose = name_below(*whose);
    intent.names = read_names(*speech);
  }
  std::ranges::move(read_names(line), std::back_inserter(intent.names));
  if (const auto amount = line.child(NodeKind::amount)) intent.amount = read_amount(*amount);
  intent.clauses = read_clauses(line);
  return intent;
}

LineBody read_story(const NodeView& line) {
  using State = StoryLine::State;
  static const std::map<std::string, State> states = {
      {"leads", State::leads},         {"runs under", State::runs_under}, {"comes up", State::comes_up},
      {"breaks in", State::breaks_in}, {"drops out", State::drops_out},   {"closes", State::closes}};
  return StoryLine{name_below(line), states.at(line.the(NodeKind::story_state).words()), read_clauses(line)};
}

LineBody read_lasts(const NodeView& line) {
  const NodeView amount = line.only();
  LastsLine lasts{false, read_amount(amount)};
  lasts.about = lasts.amount.form == Amount::Form::about;
  return lasts;
}

LineBody read_note(const NodeView& line) {
  const auto department = line.child(NodeKind::a_plain_word);
  return NoteLine{department ? std::string(department->text()) : "", read_quoted(line.the(NodeKind::text)),
                  read_clauses(line)};
}

LineBody read_waive(const NodeView& line) {
  const NodeView key = line.the(NodeKind::key);
  return WaiveLine{{std::string(key.text()), key.span()}, read_names(line), read_clauses(line)};
}

LineBody read_mark(const NodeView& line) {
  MarkLine mark{name_below(line), {}, read_clauses(line)};
  if (const auto spot = line.child(NodeKind::spot)) mark.at = read_place(*spot);
  return mark;
}

// everyone, or names, directly below the node.
Who read_who(const NodeView& node) {
  Who who;
  who.span = node.span();
  who.names = read_names(node);
  if (const auto everyone = node.child(NodeKind::everyone)) {
    who.everyone = true;
    if (const auto but = everyone->child(NodeKind::but_whom)) who.but = read_names(*but);
  }
  return who;
}

LineBody read_speech_line(const NodeView& line) {
  using Addressee = SpeechLine::Addressee;
  SpeechLine speech;
  speech.speaker = read_who(line.the(NodeKind::speaker));
  if (const auto to = line.child(NodeKind::addressee)) {
    speech.to = read_names(*to);
    speech.addressee = to->child(NodeKind::everyone) ? Addressee::everyone
                       : to->child(NodeKind::nobody) ? Addressee::nobody
                                                     : Addressee::named;
  }
  speech.clauses = read_clauses(line);
  for (const NodeView& text : line.children(NodeKind::text)) {
    std::ranges::move(read_speech_parts(text), std::back_inserter(speech.parts));
  }
  return speech;
}

// Someone or something the verb is done to, or the word `focus`, which joins the verb.
void read_object(const NodeView& object, DeedLine& deed) {
  const NodeView inner = object.only();
  switch (inner.kind()) {
    case NodeKind::text:
      deed.quoted = read_quoted(inner);
      break;
    case NodeKind::focus_object:
    case NodeKind::own_eyes:
      deed.verb += " " + inner.words();
      deed.verb_span.end = inner.span().end;
      break;
    default:
      deed.objects = read_things(object);
  }
}

LineBody read_deed_line(const NodeView& line) {
  DeedLine deed;
  const NodeView subject = line.the(NodeKind::subject);
  const NodeView who = subject.only();
  if (who.kind() == NodeKind::of_cameras) deed.subject = DeedLine::Subject::camera;
  if (who.kind() == NodeKind::of_lights) deed.subject = DeedLine::Subject::light;
  deed.who = read_who(deed.subject == DeedLine::Subject::people ? subject : who);
  deed.also = line.child(NodeKind::also).has_value();
  const NodeView verb = line.the(NodeKind::verb);
  deed.verb = verb.words();
  deed.verb_span = verb.span();
  if (const auto object = line.child(NodeKind::object)) read_object(*object, deed);
  deed.clauses = read_clauses(line);
  return deed;
}

}  // namespace

std::vector<SpeechPart> read_speech_parts(const NodeView& text) {
  const Span inside = read_quoted(text).span;
  std::vector<Node> nodes;
  read_speech(text.file_bytes(), inside.begin, inside.end, nodes);
  std::vector<SpeechPart> parts;
  for (const NodeView& node :
       top_nodes(text.file_bytes(), text.file(), nodes, 0, static_cast<std::uint32_t>(nodes.size()))) {
    SpeechPart part;
    part.span = node.span();
    if (node.kind() == NodeKind::speech_mark) {
      part.kind = SpeechPart::Kind::mark;
      part.mark = read_name(node.only());
    } else if (node.kind() == NodeKind::speech_rest) {
      part.kind = SpeechPart::Kind::rest;
      part.rest = read_figure(node.only());
      part.rest.unit = node.the(NodeKind::unit).text();
      part.rest.span.end = node.the(NodeKind::unit).span().end;
    } else {
      part.words = node.text();
    }
    parts.push_back(std::move(part));
  }
  return parts;
}

LineBody read_body(const NodeView& line) {
  switch (line.kind()) {
    case NodeKind::header:
      return read_header(line);
    case NodeKind::opening:
    case NodeKind::way:
    case NodeKind::scene:
    case NodeKind::other_part:
      return read_heading(line);
    case NodeKind::bring_in:
    case NodeKind::order_font:
      return read_use(line);
    case NodeKind::choose: {
      const std::vector<Name> names = read_names(line);
      return ChooseLine{names[0], names[1]};
    }
    case NodeKind::people:
      return PeopleLine{read_names(line), true, read_clauses(line)};
    case NodeKind::room:
      return read_room(line);
    case NodeKind::declare:
      return read_declaration(line);
    case NodeKind::set_default:
    case NodeKind::weigh:
    case NodeKind::treat:
    case NodeKind::sizing:
      return read_setting(line);
    case NodeKind::instead_of:
    case NodeKind::without:
      return read_change(line);
    case NodeKind::favour:
      return read_favour(line);
    case NodeKind::story:
      return read_story(line);
    case NodeKind::lasts:
      return read_lasts(line);
    case NodeKind::later: {
      const auto amount = line.child(NodeKind::amount);
      return LaterLine{amount ? std::optional(read_amount(*amount)) : std::nullopt};
    }
    case NodeKind::draw:
      return DrawLine{line.only().text() == "plan", read_clauses(line)};
    case NodeKind::waive:
      return read_waive(line);
    case NodeKind::note:
      return read_note(line);
    case NodeKind::extra:
      return ExtraLine{name_below(line), text_below(line), read_clauses(line)};
    case NodeKind::mark_line:
      return read_mark(line);
    case NodeKind::speech:
      return read_speech_line(line);
    case NodeKind::deed_line:
      return read_deed_line(line);
    case NodeKind::pause:
      return PauseLine{read_amount(line.only()), read_clauses(line)};
    case NodeKind::cut:
      return CutLine{name_below(line), read_clauses(line)};
    case NodeKind::sound:
      return SoundLine{name_below(line), read_clauses(line)};
    default:
      return read_intent(line);
  }
}

}  // namespace lensward
