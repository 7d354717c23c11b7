#include <algorithm>

#include "read_text.h"
#include "syntax/node_kind.h"

using namespace lensward;
using Said = std::vector<std::string>;

namespace {

struct Slip {
  std::string line;
  std::string said;       // without the line number
  std::string next_step;  // a part of it
};

const Slip slips[] = {
    {"banner Nell", "1 parse.unknown-line [banner]", "begin with a name"},
    {"puase 2 s", "1 parse.unknown-line [puase]", "did you mean `pause`?"},
    {"then favuor Nell", "6 parse.unknown-line [favuor]", "did you mean `favour`?"},
    {"# a remark", "1 parse.unknown-line [#]", "a comment begins with `--`"},
    {"Abel turns to stove", "15 parse.lower-case-name [stove]", "write `Stove`"},
    {"nell walks to the Hull", "1 parse.lower-case-name [nell]", "write `Nell`"},
    {"nell to Abel: \"No.\"", "1 parse.lower-case-name [nell]", "write `Nell`"},
    {"Nell Walks to the Hull", "6 parse.capital-word [Walks]", "write `walks`"},
    {"Favour Nell", "1 parse.capital-word [Favour]", "write `favour`"},
    {"Nell walks to left of the Hull", "15 parse.bare-left [left]",
     "`frame left`, `camera left of Hull` or `Hull's left`"},
    {"camera A pans right", "15 parse.bare-left [right]", "`frame right`"},
    {"Nell takes the Mallet, with left hand", "29 parse.bare-left [left]", "write `own left hand`"},
    {"Nell enters by the Hatch to Doorstep", "26 parse.missing-comma [to]", "put a comma before `to`"},
    {"Nell to Abel softly: \"No.\"", "14 parse.missing-comma [softly]", "put a comma before `softly`"},
    {"Nell looks at Abel because", "20 parse.missing-comma [because]", "put a comma"},
    {"Nell walks quickly", "12 parse.left-over [quickly]", "write `briskly` or `hurrying`"},
    {"Nell walks to", "14 parse.left-over []", "finish it"},
    {"Nell walks to a Crate", "15 parse.left-over [a]", "leave it out: `Crate`"},
    {"Nell walks to an Urn", "15 parse.left-over [an]", "leave it out: `Urn`"},
    {"Nell turns away from the lens", "22 parse.left-over [the lens]", "write `lens`"},
    {"Nell walks to the Hull and sits", "28 parse.left-over [sits]", "`then Nell sits`"},
    {"Nell walks to the Hull and crate", "28 parse.lower-case-name [crate]", "write `Crate`"},
    {"Nell (softly): \"No.\"", "6 parse.left-over [(]", "`Nell, softly: \"…\"`"},
    {"(a silence)", "1 parse.unknown-line [(]", "`--`"},
    {"INT. SLIPWAY - DAY", "1 parse.left-over [INT]", "`scene NAME, interior`"},
    {"Nell walks two paces north of the Hull", "16 unit.unknown [paces]", "lengths"},
    {"favour everyone", "8 parse.left-over [everyone]", "`favour NAME`"},
    {"hide nobody", "6 parse.left-over [nobody]", "`hide NAME`"},
    {"share Nell", "11 parse.left-over []", "`share Nell and NAME`"},
    {"Nell turns frontl", "12 parse.left-over [frontl]", "did you mean `frontal`?"},
    {"Nell to Abel: \"No.\", softly", "20 parse.after-speech [, softly]", "before the colon: `Nell …, softly: \"…\"`"},
    {"Nell walks to the wall", "19 parse.left-over [wall]", "`the north wall`"},
    {"Nell walks to the corner", "19 parse.left-over [corner]", "`the north-west corner`"},
    {"Nell exits through the Hatch", "12 parse.left-over [through]", "write `by the Hatch`"},
    {"Nell leaves the room", "13 parse.left-over [the room]", "`Nell leaves`"},
    {"Nell turns to him", "15 parse.lower-case-name [him]", "write the name itself"},
    {"they turn to Nell", "1 parse.lower-case-name [they]", "write the name itself"},
    {"Nell takes the Mallet, with her left hand", "29 parse.lower-case-name [her]", "write `own left hand`"},
    {"Old Tom walks to the Hull", "1 parse.left-over [Old Tom]", "`Old-Tom`"},
    {"Nell walks to the Old Hull", "19 parse.left-over [Old Hull]", "`Old-Hull`"},
    {"beat The Morning", "6 parse.left-over [The Morning]", "`The-Morning`"},
    {"favour Nell and Abel", "13 parse.left-over [and]", "write `share Nell and Abel`"},
    {"favour Nell, Abel, just", "14 parse.left-over [Abel]", "write `share Nell, Abel`"},
    {"Nell to Abel: 'Well?'", "15 parse.left-over ['Well?']", "write double ones: `\"Well?\"`"},
    {"Nell to Abel ‘Well?’", "14 parse.left-over [‘Well?’]", "write double ones: `: \"Well?\"`"},
    {"Nell, walks to the Hull", "5 parse.left-over [,]", "write `Nell walks`"},
    {"Nell and Abel, go to the Hull", "14 parse.left-over [,]", "write `Nell and Abel go`"},
    {"Nell, steps to the Hull", "5 parse.left-over [,]", "write `Nell steps`"},
    {"close-up on Nell", "1 parse.unknown-line [close-up]", "write `camera frames Nell, close-up`"},
    {"focus on Nell", "1 parse.left-over [focus]", "write `camera focuses on Nell`"},
    {"Cut to A", "1 parse.capital-word [Cut]", "write `cut`"},
    {"Nell slowly walks to the Hull", "6 parse.left-over [slowly walks to the Hull]",
     "`Nell walks to the Hull, slowly`"},
    {"Nell suddenly turns to Abel", "6 parse.left-over [suddenly turns to Abel]", "`Nell turns to Abel`"},
    {"Nell whispers: \"No.\"", "1 parse.no-colon [Nell whispers]", "write `Nell, whispered: \"…\"`"},
    {"Nell asks to Abel: \"No?\"", "1 parse.no-colon [Nell asks to Abel]", "write `Nell to Abel: \"…\"`"},
    {"Nell shakes her head", "6 name.unknown-verb [shakes her head]", "`does \"shakes her head\"`"},
    {"Nell gives Abel the Mallet", "12 parse.left-over [Abel the Mallet]", "write `gives the Mallet to Abel`"},
    {"Nell puts the Mallet down", "6 parse.left-over [puts the Mallet down]", "write `puts down the Mallet`"},
    {"Nell puts it down", "11 parse.lower-case-name [it]", "write the name itself"},
    {"Nell walks over to the Hull", "12 parse.left-over [over to]", "`to the Hull`"},
    {"Nell stands next to Abel", "13 parse.left-over [next to]", "write `beside`"},
    {"Nell walks to the middle of the room", "15 parse.left-over [the middle of the room]", "write `centre`"},
    {"all look at Nell", "1 parse.left-over [all]", "write `everyone`"},
    {"Nell looks at Abel, then at the Hull", "21 parse.left-over [then]", "`then Nell`"},
    {"Nell to Abel, whispering: \"No.\"", "15 parse.left-over [whispering]", "write `whispered`"},
    {"Nell to Abel, angrily: \"No.\"", "15 parse.left-over [angrily]", "`loudly`"},
    {"Nell walks to the Hull, takes the Mallet", "25 parse.left-over [takes]", "`then Nell takes`"},
    {"Nell, slowly, walks to the Hull", "15 parse.left-over [walks]", "begin with `Nell walks`"},
    {"wait 2 s", "1 parse.left-over [wait 2 s]", "write `pause 2 s`"},
    {"pause for 2 s", "1 parse.left-over [pause for 2 s]", "write `pause 2 s`"},
    {"Nell looks at Abel, when he says \"no\"", "21 parse.left-over [when]", "write `on \"no\"`"},
    {"Nell looks at Abel.", "19 parse.left-over [.]", "delete it"},
    {"wide shot", "1 parse.unknown-line [wide]", "write `camera frames NAME, wide shot`"},
    {"Beat.", "1 parse.left-over [Beat.]", "write `pause 1 s`"},
    {"PAUSE", "1 parse.left-over [PAUSE]", "write `pause 1 s`"},
    {"pause", "1 parse.left-over [pause]", "write `pause 1 s`"},
    {"(a beat)", "1 parse.left-over [(a beat)]", "write `pause 1 s`"},
    {"beat", "5 parse.left-over []", "`beat Morning`"},
    {"Nell looks at Abel, on turned", "24 parse.left-over [turned]", "write `on \"turned\"`"},
    {"Nell looks at Abel, after the bell rang", "31 parse.lower-case-name [bell]", "write `Bell`"},
    {"Nell looks at Abel, before \"no\"", "21 parse.left-over [before]", "write `0.3 s before \"no\"`"},
    {"Nell looks at Abel, when \"no\"", "21 parse.left-over [when]", "write `on \"no\"`"},
    {"Nell looks at Abel, when Abel turns", "21 parse.left-over [when]", "write `as Abel turns`"},
    {"Nell looks at Abel once Abel turns, softly", "20 parse.left-over [once]", "write `, after Abel turns`"},
    {"Nell turns to the camera, slowly", "15 parse.left-over [the camera]", "write `lens`"},
    {"Nell looks at the audience", "15 parse.left-over [the audience]", "write `lens`"},
    {"Nell says \"No.\"", "6 parse.no-colon [says]", "NAME to NAME"},
    {"Nell says to Abel \"No.\"", "6 parse.no-colon [says]", "NAME to NAME"},
    {"Nell to Abel \"No.\"", "14 parse.no-colon [\"]", "put a colon before the words"},
    {"Nell \"No.\"", "6 parse.no-colon [\"]", "put a colon before the words"},
    {"Nell to Abel: No.", "15 parse.left-over [No]", "put them in quotation marks"},
    {"Nell to Abel: \"No.", "15 parse.unfinished-text [\"]", "close it"},
    {"Nell to Abel: 「No.", "15 parse.unfinished-text [「]", "close it"},
    {"Nell to Abel: \"No [Turn\"", "19 parse.unfinished-mark [[]", "`[Turn]`"},
    {"Nell to Abel: \"No [pause 2] yes\"", "19 parse.unfinished-mark [[pause 2]]", "`[pause 0.8 s]`"},
    {"Nell to Abel: \"No [turn] yes\"", "19 parse.unfinished-mark [[turn]]", "`[Turn]`"},
    {"Nell to Abel:", "13 parse.empty-speech [:]", "in quotation marks"},
    {"Nell to Abel: \"\"", "1 parse.empty-speech [Nell to Abel: \"\"]", "in quotation marks"},
    {"pause 2 s\n\"No.\"", "1 parse.stray-text [\"No.\"]", "below the speech"},
    {"lasts 2 s\n+ briskly", "1 parse.stray-more [+]", "line of its own"},
    {"beat Tide\n+ briskly", "1 parse.stray-more [+]", "line of its own"},
    {"furniture Crate, box", "1 parse.wrong-place [furniture]", "above `opening`"},
    {"instead of cut to A: cut to B", "1 parse.wrong-place [instead]", "way NAME of BEAT"},
    {"staging 1.0 scene", "1 parse.wrong-place [staging]", "on line 1"},
    {"set Boathouse", "1 parse.wrong-place [set]", "a file of its own"},
    {"<<<<<<< mine", "1 parse.merge-marker [<<<<<<< mine]", "keep one side"},
    {"Nell to Abel: \"a\xE2\x80\xAE"
     "b\"",
     "17 parse.hidden-character [\xE2\x80\xAE]", "delete it"},
    {"Nell to Abel: \"caf\xE9!\"", "19 parse.not-utf8 [\xE9]", "save the file as UTF-8"},
    {"Nell walks to 0.8 off Abel's left", "15 unit.missing [0.8]", "write `0.8 m`"},
    {"pause 2", "7 unit.missing [2]", "write `2 s`"},
    {"Nell is at (3, 2)", "12 unit.missing [(3, 2)]", "write `(3, 2) m`"},
    {"camera A is at (3, 2) m, tilt 4", "31 unit.missing [4]", "write `4 deg`"},
    {"Nell walks to 2 paces north of the Hull", "17 unit.unknown [paces]", "lengths"},
    {"pause 2 seconds", "9 unit.unknown [seconds]", "write `s`"},
    {"pause 2 Seconds", "9 unit.unknown [Seconds]", ""},
    {"pause 2 m 3 s", "7 unit.wrong-type [2 m 3 s]", "5 ft 7 in"},
    {"pause 12345678901 s", "7 unit.out-of-range [12345678901]", "shorten it"},
};

}  // namespace

TEST_CASE("each slip is named, at its own place, with one thing to do") {
  for (const Slip& slip : slips) {
    const Reading reading = in_beat(slip.line);
    INFO(slip.line);
    REQUIRE(reading.said().size() == 1);
    const auto line = 4 + std::count(slip.line.begin(), slip.line.end(), '\n');
    CHECK(reading.said()[0] == std::to_string(line) + ":" + slip.said);
    const Finding& finding = reading.findings.all()[0];
    CHECK(finding.severity == Severity::error);
    CHECK(finding.next_step.find(slip.next_step) != std::string::npos);
    CHECK(std::holds_alternative<BrokenLine>(reading.script.statements.back().body));
    // The manner of all messages.
    CHECK_FALSE((finding.message[0] >= 'A' && finding.message[0] <= 'Z'));
    CHECK(finding.message.back() != '.');
    CHECK_FALSE(finding.next_step.empty());
  }
}

TEST_CASE("a repair of a slip is read") {
  for (const Slip& slip : slips) {
    const Reading reading = in_beat(slip.line);
    for (const Repair& repair : reading.findings.all()[0].repairs) {
      std::string mended(reading.sources.file(0).bytes());
      const TextEdit& edit = repair.edits[0];
      mended.replace(edit.where.begin, edit.where.end - edit.where.begin, edit.text);
      const Reading again(mended);
      INFO(mended);
      // The same complaint is gone; another may have stood behind it.
      CHECK((again.said().empty() || again.said()[0] != reading.said()[0]));
    }
  }
}

TEST_CASE("the language line") {
  CHECK(Reading("-- a remark\nscene S\n").said() == Said{"2:1 parse.header-missing [scene]"});
  CHECK(Reading("").said().empty());

  const Reading newer("staging 2.0 scene\nscene S\nblorp\n");
  CHECK(newer.said() == Said{"1:9 parse.newer-language [2.0]"});
  CHECK(newer.tree.lines[2].broken);

  const Reading minor("staging 1.7 scene\nscene S\nbeat B\nblorp Nell\nfavour Nell\n");
  CHECK(minor.said() == Said{"1:9 parse.newer-minor [1.7]"});
  CHECK(minor.findings.all()[0].severity == Severity::warning);
  CHECK(std::holds_alternative<IntentLine>(minor.script.statements.back().body));

  CHECK(Reading("stagin 1.0 scene\nscene S\n").said() == Said{"1:1 parse.unknown-line [stagin]"});
}

TEST_CASE("neither side of an unfinished merge is in force") {
  const Reading reading = in_beat("<<<<<<< mine\nfavour Nell\n=======\nfavour Abel\n>>>>>>> theirs\nfavour Wren\n");
  CHECK(reading.findings.all().size() == 3);
  int intents = 0;
  for (const Statement& statement : reading.script.statements) {
    intents += std::holds_alternative<IntentLine>(statement.body) ? 1 : 0;
  }
  CHECK(intents == 1);
}

TEST_CASE("what stands in which part") {
  CHECK(Reading("staging 1.0 kit\nkit K\ncamera A, on dolly\nlight Key, soft\nlens L50, focal 50 mm\n").said().empty());
  CHECK(Reading("staging 1.0 kit\nkit K\nperson Nell\n").said() == Said{"3:1 parse.wrong-place [person]"});
  CHECK(Reading("staging 1.0 company\ncompany C\nperson Nell\nprop Pan\n").said() ==
        Said{"4:1 parse.wrong-place [prop]"});
  CHECK(Reading("staging 1.0 set\nset S\nroom 4 m by 3 m\nweigh voice 22 points\n").said() ==
        Said{"4:1 parse.wrong-place [weigh]"});
  CHECK(in_scene("pause 2 s").said() == Said{"3:1 parse.wrong-place [pause]"});
  CHECK(in_scene("opening\nNell walks to the Hull").said() == Said{"4:1 parse.wrong-place [Nell]"});
  CHECK(in_scene("opening\nthen cut to A").said() == Said{"4:1 parse.wrong-place [then]"});
  CHECK(in_scene("opening\nNell stands by the Hull\ncamera A moves to (3, 2) m\ncut to A").said().empty());
}

TEST_CASE("words below a broken line are not a second finding") {
  CHECK(in_beat("Nell to Abel \"One.\"\n  \"Two.\"\n  + softly\n").said() == Said{"4:14 parse.no-colon [\"]"});
}

// Each word of every line in turn gets two letters more. Where the language leaves a class of words open (verbs, keys,
// departments, colours of tape, free words) the line may still be read; elsewhere the finding must be at that word.
TEST_CASE("a word misspelt is reported at its own column") {
  const Reading good(every_form());
  const std::string text = every_form();
  int reported = 0;
  for (const Leaf& leaf : good.tree.leaves) {
    if (leaf.kind != Leaf::Kind::word || text[leaf.begin] == '%') continue;
    std::string misspelt = text;
    misspelt.insert(leaf.end, "qz");
    const Reading reading(misspelt);
    const Position place = good.sources.file(0).position(leaf.begin);
    INFO(good.sources.file(0).line_text(place.line) << "\nmisspelt at " << place.column);
    const bool open = std::any_of(good.tree.nodes.begin(), good.tree.nodes.end(), [&leaf](const Node& node) {
      const bool covers = node.begin <= leaf.begin && leaf.end <= node.end;
      return covers &&
             (node.kind == NodeKind::verb || node.kind == NodeKind::key || node.kind == NodeKind::a_plain_word ||
              node.kind == NodeKind::free_words || node.kind == NodeKind::deed);
    });
    if (open) continue;
    REQUIRE_FALSE(reading.said().empty());
    // A broken language line or heading has more to say further down; its own comes first.
    const Position said = reading.sources.begin_of(reading.findings.all()[0].where);
    // `Nell toqz Anders` has a verb in it, and `captain theqz` a word of one's own: these small words, and no others,
    // may be read as something open, and then what follows them is what is left over.
    const std::string word = text.substr(leaf.begin, leaf.end - leaf.begin);
    const bool small = word == "to" || word == "but" || word == "and" || word == "also" || word == "the";
    if (small && said.line == place.line && said.column > place.column) continue;
    CHECK(said == place);
    ++reported;
  }
  CHECK(reported > 500);
}
