// The staging language 1.0 as rules: syntax and nothing else. Read it top to bottom; a rule stands above those it is
// made of only in this order of parts: A whole lines, B leading words, C intent, D time, E clauses, F places,
// G names and amounts, H spelling, I inside a speech. C++ wants them the other way round, so the file runs from H to A.
//
// One line of the file is one input. Blanks may stand before every token and nowhere else. Nothing here recurses.
#pragma once

#include "grammar/bytes.hpp"

// clang-format off
namespace lensward::grammar {

using peg::at;
using peg::eof;
using peg::not_at;
using peg::plus;
using peg::seq;
using peg::sor;

template <class... R> using maybe = peg::opt<seq<R...>>;
template <class... R> using any_number = peg::star<seq<R...>>;

// A lexeme with the blanks before it.
template <class Lexeme> struct token : seq<lex::blanks, Lexeme> { using lexeme = Lexeme; };
template <Spelling... S> using word = token<lex::word_of<S...>>;
template <Spelling S> using sign = token<lex::bytes<S>>;

// ---- H. Spelling: no blanks inside ---------------------------------------------------------------------------------
namespace lex {

struct upper        : peg::range<'A', 'Z'> {};
struct lower        : peg::range<'a', 'z'> {};
struct digit        : peg::range<'0', '9'> {};
struct apostrophe   : sor<bytes<"'">, bytes<"’">> {};
struct minus        : bytes<"−"> {};
struct blank        : blanks {};

struct name_more    : sor<upper, lower, digit, bytes<"_">, wide> {};
struct word_more    : sor<name_more, seq<bytes<"-">, name_more>> {};
struct s_alone      : seq<bytes<"s">, not_at<name_more>> {};
struct name_tail    : sor<name_more, seq<bytes<"-">, at<name_more>>, seq<apostrophe, not_at<s_alone>, at<name_more>>> {};
struct name_head    : sor<upper, wide> {};
struct name         : seq<name_head, any_number<name_tail>> {};
struct path         : seq<name, any_number<bytes<".">, sor<name, plus<digit>>>> {};
struct owner        : seq<path, apostrophe, bytes<"s">, not_at<name_more>> {};
struct anchor       : seq<bytes<"[">, name, bytes<"]">> {};

struct plain_word   : seq<plus<lower>, any_number<bytes<"-">, plus<lower>>, not_at<word_more>> {};
struct verb_word    : plain_word {};
struct key          : seq<plain_word, maybe<bytes<".">, plain_word>> {};
struct tag          : seq<plus<sor<digit, upper>>, not_at<word_more>> {};

struct whole        : plus<digit> {};
struct decimal      : seq<whole, maybe<bytes<".">, whole>> {};
struct number       : seq<maybe<sor<bytes<"+">, bytes<"-">, minus>>, decimal> {};
struct version      : seq<whole, bytes<".">, whole, not_at<word_more>> {};
struct eighths      : seq<digit, bytes<"/8">, not_at<word_more>> {};
struct stop_value   : seq<sor<bytes<"T">, bytes<"f/">>, decimal> {};
struct count        : word_of<"one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"> {};
struct in_front     : seq<blank, bytes<"front">> {};
struct unit_word    : sor<bytes<"words/min">, bytes<"characters/min">, bytes<"syllables/min">, bytes<"m/s">, bytes<"ft/s">, bytes<"deg/s">,
                          bytes<"people">, bytes<"points">, bytes<"point">, bytes<"steps">, bytes<"step">, bytes<"stops">, bytes<"stop">,
                          bytes<"frames">, bytes<"fps">, bytes<"inch">, seq<bytes<"in">, not_at<in_front>>, bytes<"ft">, bytes<"mm">,
                          bytes<"cm">, bytes<"min">, bytes<"ms">, bytes<"m">, bytes<"s">, bytes<"deg">, bytes<"lux">, bytes<"lm">,
                          bytes<"cd">, bytes<"fc">, bytes<"kg">, bytes<"K">, bytes<"kW">, bytes<"W">> {};
struct unit         : sor<seq<unit_word, not_at<word_more>, not_at<bytes<"/">>>, bytes<"%">> {};

template <Spelling Open, Spelling Close> using between_marks = seq<bytes<Open>, any_number<not_at<bytes<Close>>, any>, bytes<Close>>;
struct text         : sor<between_marks<"\"", "\"">, between_marks<"“", "”">, between_marks<"«", "»">, between_marks<"「", "」">> {};
struct quote_open   : sor<bytes<"\"">, bytes<"“">, bytes<"«">, bytes<"「">> {};
struct old_bit      : sor<text, seq<not_at<quote_open>, not_at<bytes<":">>, not_at<bytes<"--">>, any>> {};
struct old_words    : plus<old_bit> {};
struct comment      : seq<bytes<"--">, any_number<any>> {};
struct merge_mark   : seq<sor<bytes<"<<<<<<<">, bytes<"|||||||">, bytes<"=======">, bytes<">>>>>>>">>, any_number<any>> {};

}  // namespace lex

// The lexemes again, as tokens: with blanks before them.
struct a_plain_word : token<lex::plain_word> {};
struct verb_word    : token<lex::verb_word> {};
struct key          : token<lex::key> {};
struct bare_name    : token<lex::name> {};
struct path         : token<lex::path> {};
struct owner        : token<lex::owner> {};
struct anchor       : token<lex::anchor> {};
struct text         : token<lex::text> {};
struct number       : token<lex::number> {};
struct count        : token<lex::count> {};
struct unit         : token<lex::unit> {};
struct eighths      : token<lex::eighths> {};
struct tag          : token<lex::tag> {};
struct version      : token<lex::version> {};
struct stop_value   : token<lex::stop_value> {};
struct old_words    : token<lex::old_words> {};
struct comment      : token<lex::comment> {};
struct merge_mark   : token<lex::merge_mark> {};
struct line_end     : token<sor<lex::bytes<"--">, eof>> {};
struct end_of_line  : token<eof> {};

// ---- G. Names, amounts -------------------------------------------------------------------------------------------
struct quantity     : sor<seq<number, unit, number, unit>, seq<number, maybe<unit>>, seq<count, unit>> {};
struct about        : seq<word<"about">, quantity> {};
struct range        : seq<seq<number, maybe<unit>>, word<"to">, quantity> {};
struct or_more      : seq<quantity, word<"or">, sor<word<"more">, word<"less">>> {};
struct amount       : sor<about, range, or_more, quantity> {};
struct a_name       : seq<maybe<word<"the">>, bare_name> {};
struct ref          : seq<maybe<word<"the">>, path> {};
struct list_more    : sor<seq<sign<",">, maybe<word<"and">>, ref>, seq<word<"and">, ref>> {};
struct names        : seq<ref, any_number<list_more>> {};
struct but_whom     : seq<word<"but">, names> {};
struct everyone     : seq<word<"everyone">, maybe<but_whom>> {};
struct nobody       : word<"nobody"> {};

// ---- F. Places -----------------------------------------------------------------------------------------------------
struct compass      : word<"north-east", "north-west", "south-east", "south-west", "north", "east", "south", "west"> {};
struct side         : word<"left", "right"> {};
struct side_word    : word<"left", "right", "side"> {};
struct own_side     : word<"left", "right", "front", "back"> {};
struct part         : word<"end", "side", "edge", "corner", "half"> {};
struct compass_more : sor<part, word<"wall">> {};
struct bearing      : sor<seq<compass, not_at<compass_more>>, word<"deeper">> {};
struct depth        : sor<word<"foreground">, seq<word<"middle">, word<"ground">>, word<"deep">, word<"background">, word<"centre", "center">> {};
struct frame_part   : word<"edge", "quarter", "third"> {};
struct percent      : seq<number, sign<"%">> {};
struct frame_place  : sor<seq<side, maybe<frame_part>>, word<"centre", "center">, word<"high">, word<"low">, percent> {};
struct of_camera    : seq<word<"of">, word<"camera">, a_name> {};
struct own_place    : seq<maybe<word<"the">>, owner, own_side, maybe<part>> {};
struct room_part    : seq<maybe<word<"the">>, compass, word<"wall", "corner">> {};
struct camera_side  : seq<word<"camera">, maybe<a_name>, side> {};
struct part_side    : sor<compass, word<"near", "far">, camera_side> {};
struct portion      : seq<maybe<word<"the">>, sor<seq<part_side, part>, word<"middle">>, word<"of">, ref> {};
struct lens_itself  : word<"lens"> {};
struct a_camera     : seq<word<"camera">, a_name> {};
struct thing        : sor<lens_itself, portion, room_part, a_camera, own_place, ref> {};
struct whom         : sor<lens_itself, portion, room_part, a_camera, everyone, nobody, own_place, names> {};
struct place_word   : word<"behind", "beside", "by", "near", "against", "under", "over", "on", "in", "inside", "outside"> {};
struct toward       : word<"toward", "towards"> {};
struct to_side      : seq<toward, word<"frame">, side> {};
struct across       : seq<word<"across">, ref> {};

struct compass_of   : seq<compass, word<"of">, names> {};
struct in_front_of  : seq<word<"in">, word<"front">, word<"of">, thing> {};
struct just_inside  : seq<word<"just">, word<"inside">, thing> {};
struct placed_by    : seq<place_word, thing> {};
struct beyond       : seq<word<"beyond">, thing, maybe<of_camera>> {};
struct camera_of    : seq<word<"camera">, maybe<a_name>, side_word, word<"of">, thing> {};
struct stage_of     : seq<word<"stage">, side, word<"of">, thing> {};
struct up_down_of   : seq<word<"upstage", "downstage">, word<"of">, thing> {};
struct between      : seq<word<"between">, thing, word<"and">, thing> {};
struct opposite     : seq<word<"opposite">, thing, maybe<across>> {};
struct toward_whom  : seq<toward, whom> {};
struct away_from    : seq<word<"away">, word<"from">, thing> {};
struct off_own      : seq<word<"off">, own_place> {};
struct frame_at     : seq<word<"frame">, frame_place, maybe<of_camera>> {};
struct relation     : sor<compass_of, in_front_of, just_inside, placed_by, beyond, camera_of, stage_of, up_down_of, between, opposite,
                          to_side, toward_whom, away_from, off_own, frame_at, depth, bearing> {};
struct from_thing   : seq<word<"from">, thing> {};
struct onward       : word<"forward", "back", "up", "down"> {};
struct measured     : seq<amount, sor<relation, from_thing, onward>> {};
struct coordinates  : sor<seq<sign<"(">, number, sign<",">, number, sign<")">, unit>,
                          seq<sign<"(">, quantity, sign<",">, quantity, sign<")">>> {};
struct spot         : sor<coordinates, measured, relation, whom> {};

// ---- E. Clauses ----------------------------------------------------------------------------------------------------
struct stop_ahead   : token<sor<lex::bytes<",">, lex::bytes<":">, lex::bytes<"--">, eof>> {};
struct verb;
struct ordinal      : seq<maybe<word<"the">>, word<"first", "second", "third", "last">> {};
struct whose        : seq<word<"of">, ref> {};
struct moment       : sor<seq<maybe<ordinal>, text, maybe<whose>>, anchor> {};
struct deed         : sor<seq<word<"camera">, maybe<ref>, verb>, seq<word<"light">, ref, verb>, seq<ref, maybe<verb>>> {};
struct point        : sor<moment, deed> {};

struct cue_on       : seq<word<"on">, moment> {};
struct cue_as       : seq<word<"as">, deed> {};
struct cue_midway   : seq<word<"midway">, word<"through">, deed> {};
struct cue_after    : seq<maybe<amount>, word<"after">, point> {};
struct cue_before   : seq<amount, word<"before">, point> {};
struct cue_into     : seq<amount, word<"into">, deed> {};
struct cue_from_top : seq<maybe<amount>, word<"from">, maybe<word<"the">>, word<"top">> {};
struct cue_at_end   : seq<word<"at">, maybe<word<"the">>, word<"end">> {};
struct cue          : sor<cue_on, cue_as, cue_midway, cue_after, cue_before, cue_into, cue_from_top, cue_at_end> {};
struct until        : seq<word<"until">, point> {};
struct while_deed   : seq<word<"while">, deed> {};
struct length       : seq<word<"for", "over">, amount> {};

struct shot_size    : sor<seq<word<"extreme">, word<"close-up">>, word<"close-up">, seq<word<"medium">, word<"close-up">>,
                          seq<word<"medium">, word<"shot">>, seq<word<"knee">, word<"shot">>, seq<word<"full">, word<"shot">>,
                          seq<word<"extreme">, word<"wide">, word<"shot">>, seq<word<"wide">, word<"shot">>> {};
struct on_whom      : seq<word<"on">, names> {};
struct size         : seq<shot_size, maybe<on_whom>> {};
struct goal         : sor<size, seq<amount, at<stop_ahead>>, spot> {};
struct to_goal      : seq<word<"to">, goal> {};
struct at_spot      : seq<word<"at">, spot> {};
struct shift        : sor<measured, seq<amount, at<stop_ahead>>> {};
struct rig          : word<"sticks", "tripod", "shoulder", "slider", "dolly", "jib", "crane", "stabiliser"> {};
struct on_rig       : seq<word<"on">, rig> {};
struct where        : sor<relation, on_rig> {};
struct to_spot      : seq<word<"to">, spot> {};
struct route_via    : seq<word<"via">, spot> {};
struct route_round  : seq<word<"round", "around", "past">, thing> {};
struct route_passing: seq<word<"passing">, relation> {};
struct route_from   : seq<word<"from">, spot, maybe<to_spot>> {};
struct route_by     : seq<word<"by">, word<"panning", "tilting", "tracking", "zooming">> {};
struct route        : sor<route_via, route_round, route_passing, route_from, route_by> {};

struct facing_away  : seq<word<"away">, word<"from">, thing> {};
struct off_lens     : seq<amount, word<"off">, word<"lens">, maybe<to_side>> {};
struct facing       : seq<word<"facing">, sor<facing_away, off_lens, coordinates, whom, compass>> {};
struct body_view    : sor<word<"frontal">, seq<word<"three-quarter">, word<"back">>, word<"three-quarter">, word<"profile">> {};
struct view_to      : sor<to_side, seq<word<"to">, thing>> {};
struct back_to_lens : seq<word<"back">, word<"to">, word<"lens">> {};
struct body         : seq<sor<seq<body_view, maybe<view_to>>, back_to_lens>, maybe<of_camera>> {};
struct lean         : seq<word<"leaning">, ref> {};
struct posture      : word<"standing", "sitting", "leaning", "perching", "crouching", "kneeling", "lying"> {};
struct both_hands   : seq<word<"both">, word<"hands">> {};
struct own_hand     : seq<word<"own">, side, word<"hand">> {};
struct hands        : seq<word<"with">, sor<both_hands, own_hand, names>> {};

struct measure_word : word<"height", "eyes", "step", "width", "across", "sill", "raised", "seats", "weighs", "pan", "tilt", "roll", "turned",
                           "level", "dimmed", "colour", "color", "beam", "focal", "closest", "track", "pace", "speaks", "face", "margin",
                           "within", "cuts", "headroom", "draws", "circuit", "pupil"> {};
struct along_apart  : word<"along", "apart"> {};
struct measure      : sor<seq<measure_word, amount>, seq<amount, along_apart>> {};
struct by_third     : seq<word<"by">, quantity> {};
struct dims         : seq<word<"measures", "gate">, quantity, word<"by">, quantity, maybe<by_third>> {};
struct with_lens    : seq<word<"lens">, sor<quantity, ref>> {};
struct with_stop    : seq<word<"stop", "widest">, stop_value> {};
struct with_focus   : seq<word<"focus">, sor<amount, whom>> {};
struct optics       : sor<with_lens, with_stop, with_focus> {};
struct at_range     : seq<word<"at">, quantity> {};
struct aims         : seq<word<"aims">, word<"at">, spot> {};
struct gives        : seq<word<"gives">, quantity, maybe<at_range>> {};
struct front        : seq<word<"front">, compass> {};
struct hangs        : seq<word<"hangs">, word<"to">, amount> {};
struct lighting     : sor<aims, gives, front, hangs> {};
struct of_whom      : seq<word<"of">, sor<a_camera, names>> {};
struct called       : seq<word<"called", "language", "because">, text> {};
struct named        : seq<word<"named", "mark">, a_name> {};
struct filed_extra  : seq<word<"extra">, a_name, text> {};
struct label        : sor<called, named, filed_extra> {};
struct pace         : word<"slowly", "briskly", "hurrying"> {};
struct loudness     : word<"whispered", "softly", "loudly", "shouted"> {};
struct voice_off    : word<"off"> {};
struct trailing_off : seq<word<"trailing">, word<"off">> {};
struct cutting_in   : seq<word<"cutting">, word<"in">> {};
struct cut_off      : seq<word<"cut">, word<"off">, word<"on">, moment> {};
struct voice        : sor<loudness, voice_off, trailing_off, cutting_in, cut_off> {};
struct scale        : word<"small", "busy", "large"> {};
struct in_sight     : seq<word<"in">, word<"plain">, word<"sight">> {};
struct strength     : sor<word<"just", "outright">, in_sight> {};
struct stay         : sor<seq<word<"runs">, word<"on">>, word<"fixed">, word<"touching">> {};
struct tone         : word<"dark", "mid", "light"> {};
struct trait_tone   : seq<word<"walls", "dressed">, tone> {};
struct trait_tape   : seq<word<"tape">, a_plain_word> {};
struct trait_word   : sor<word<"present">, seq<word<"open">, word<"underneath">>, word<"open">, word<"shut", "glass", "wild", "inward", "outward">,
                          seq<word<"both">, word<"ways">>, word<"practical", "soft", "hard", "noisy">> {};
struct trait        : sor<trait_word, trait_tone, trait_tape> {};
struct piece        : word<"table", "desk", "counter", "bar", "stove", "sink", "basin", "bath", "fridge", "cupboard", "wardrobe", "sideboard",
                           "bookcase", "chest", "crate", "barrel", "chair", "armchair", "stool", "bench", "sofa", "bed", "bunk", "pew",
                           "piano", "lectern", "trolley", "screen", "curtain", "cloth", "pillar", "rail", "fence", "tree", "hedge",
                           "steps", "ladder", "fireplace", "rug", "box"> {};
struct page_word    : word<"pages", "page"> {};
struct hour         : word<"dawn", "morning", "day", "dusk", "evening", "night"> {};
struct filed_number : seq<word<"number">, tag> {};
struct doors        : word<"interior", "exterior"> {};
struct pages        : sor<seq<number, maybe<eighths>, page_word>, seq<eighths, page_word>> {};
struct filing       : sor<filed_number, doors, hour, pages> {};

struct clause       : sor<cue, until, while_deed, length, to_goal, at_spot, shift, where, route, facing, body, lean, posture, size, hands,
                          measure, dims, optics, lighting, of_whom, label, pace, voice, scale, strength, stay, trait, piece, filing> {};

// ---- D. What happens in time -------------------------------------------------------------------------------------
struct more_clauses : any_number<sign<",">, clause> {};
struct off_alone    : seq<word<"off">, not_at<own_place>> {};
struct first_clause : seq<not_at<off_alone>, clause> {};
struct focus_on     : sor<amount, whom> {};
struct focus_object : seq<word<"focus">, not_at<focus_on>> {};
struct own_eyes     : seq<word<"own">, word<"eyes">> {};
struct object       : sor<text, focus_object, own_eyes, everyone, names> {};
struct on_what      : sor<whom, moment, rig> {};
struct in_what      : sor<word<"front">, word<"plain">, whom> {};
struct to_lens      : seq<word<"to">, word<"lens">> {};
struct particle     : sor<word<"up">, word<"down">, word<"out">, word<"forward">, seq<word<"back">, not_at<to_lens>>,
                          seq<word<"away">, not_at<word<"from">>>, seq<word<"in">, not_at<in_what>>, seq<word<"on">, not_at<on_what>>,
                          seq<word<"off">, not_at<own_place>>> {};
struct not_verb     : word<"to", "and", "but", "the", "also"> {};
struct verb         : seq<not_at<not_verb>, verb_word, maybe<particle>> {};
struct also         : word<"also"> {};
struct of_cameras   : seq<word<"camera">, maybe<names>> {};
struct of_lights    : seq<word<"light">, names> {};
struct subject      : sor<everyone, of_cameras, of_lights, names> {};
struct deed_line    : seq<subject, maybe<also>, verb, maybe<object>, maybe<first_clause>, more_clauses> {};
struct sound        : seq<word<"sound">, a_name, more_clauses> {};
struct cut          : seq<word<"cut">, word<"to">, maybe<word<"camera">>, a_name, more_clauses> {};
struct pause        : seq<word<"pause">, amount, more_clauses> {};
struct addressee    : seq<word<"to">, sor<everyone, nobody, names>> {};
struct speaker      : sor<everyone, names> {};
struct speech       : seq<speaker, maybe<addressee>, more_clauses, sign<":">, any_number<text>> {};
struct when         : word<"then", "meanwhile"> {};
struct timed        : seq<maybe<when>, sor<speech, deed_line, pause, cut, sound>> {};

// ---- C. What the beat is for -------------------------------------------------------------------------------------
struct story_state  : sor<word<"leads">, seq<word<"runs">, word<"under">>, seq<word<"comes">, word<"up">>, seq<word<"breaks">, word<"in">>,
                          seq<word<"drops">, word<"out">>, word<"closes">> {};
struct story        : seq<word<"story">, a_name, story_state, more_clauses> {};
struct button       : seq<word<"button">, word<"on">, names, more_clauses> {};
struct settle       : seq<word<"settle">, amount, more_clauses> {};
struct draw_eye     : seq<word<"draw">, maybe<word<"the">>, word<"eye">, word<"to">, ref, more_clauses> {};
struct hide         : seq<word<"hide", "hint", "reveal">, names, more_clauses> {};
struct plant        : seq<sor<word<"plant">, seq<word<"pay">, word<"off">>>, names, more_clauses> {};
struct a_speech     : sor<seq<text, maybe<whose>>, ref> {};
struct throw_away   : seq<word<"throw">, word<"away">, a_speech, more_clauses> {};
struct play_on      : seq<word<"play">, a_speech, word<"on">, names, more_clauses> {};
struct pass         : seq<word<"pass">, word<"from">, ref, word<"to">, ref, more_clauses> {};
struct share        : seq<word<"share">, ref, plus<list_more>, more_clauses> {};
struct ahead        : seq<word<"ahead">, word<"of">, names> {};
struct favour       : seq<word<"favour", "favor">, sor<nobody, ref>, maybe<ahead>, more_clauses> {};
struct intent       : sor<favour, share, pass, play_on, throw_away, plant, hide, draw_eye, settle, button, story> {};

// ---- B. Lines that begin with a leading word -----------------------------------------------------------------------
struct spoken       : plus<text> {};
struct more         : seq<sign<"+">, clause, more_clauses> {};
struct mark_at      : seq<word<"at">, spot> {};
struct mark_line    : seq<word<"mark">, a_name, maybe<mark_at>, more_clauses> {};
struct extra        : seq<word<"extra">, a_name, maybe<text>, more_clauses> {};
struct note_for     : seq<word<"for">, a_plain_word> {};
struct note         : seq<word<"note">, maybe<note_for>, text, more_clauses> {};
struct for_whom     : seq<word<"for">, names> {};
struct waive        : seq<word<"waive">, key, maybe<for_whom>, more_clauses> {};
struct picture      : word<"frame", "plan"> {};
struct draw         : seq<word<"draw">, picture, maybe<first_clause>, more_clauses> {};
struct later        : seq<word<"later">, maybe<amount>> {};
struct lasts        : sor<seq<word<"lasts">, amount>, about> {};
struct body_line    : sor<intent, lasts, later, draw, waive, note, extra, mark_line, timed> {};

struct instead_of   : seq<word<"instead">, word<"of">, old_words, sign<":">, body_line> {};
struct without      : seq<word<"without">, old_words> {};
struct change       : sor<instead_of, without> {};
struct severity     : word<"error", "warning", "remark", "off"> {};
struct free_words   : plus<a_plain_word> {};
struct value        : sor<amount, text, ref, seq<not_at<amount>, free_words>> {};
struct set_default  : seq<word<"default">, key, value> {};
struct weigh        : seq<word<"weigh">, key, quantity> {};
struct treat        : seq<word<"treat">, key, word<"as">, severity, more_clauses> {};
struct sizing       : seq<word<"sizing">, shot_size, more_clauses> {};
struct setting      : sor<set_default, weigh, treat, sizing> {};
struct kind         : word<"person", "group", "crowd", "story", "camera", "lens", "light", "prop", "furniture", "wall", "door", "window", "area"> {};
struct decl_tail    : seq<more_clauses, at<line_end>> {};
struct people       : seq<word<"people">, names, decl_tail> {};
struct room         : seq<word<"room">, quantity, word<"by">, quantity, maybe<by_third>, decl_tail> {};
struct declare      : seq<kind, a_name, decl_tail> {};
struct declaration  : sor<people, room, declare> {};
struct choose       : seq<word<"choose">, word<"way">, a_name, word<"of">, ref> {};
struct bring_in     : seq<word<"use">, text, more_clauses> {};
struct order_font   : seq<word<"order", "font">, text> {};
struct use          : sor<bring_in, order_font> {};
struct follows      : seq<word<"follows">, ref> {};
struct heading_word : word<"film", "company", "kit", "set", "beat"> {};
struct opening      : seq<word<"opening">, maybe<follows>> {};
struct way          : seq<word<"way">, a_name, word<"of">, ref, maybe<text>> {};
struct scene        : seq<word<"scene">, a_name, maybe<text>, more_clauses> {};
struct other_part   : seq<heading_word, a_name, maybe<text>> {};
struct heading      : sor<opening, way, scene, other_part> {};
struct file_kind    : word<"film", "company", "kit", "set", "scene"> {};
struct header       : seq<word<"staging">, version, file_kind> {};

// ---- A. A whole line: the start symbol is `line`, given one line without its line end ---------------------------------
struct statement    : sor<header, heading, use, choose, declaration, setting, change, more, spoken, merge_mark, body_line> {};
struct end          : seq<maybe<comment>, end_of_line> {};
struct line         : seq<maybe<statement>, end> {};

// ---- I. Inside a speech: run on the words between its quotation marks -----------------------------------------------
struct mark_name    : token<lex::name> {};
struct speech_mark  : seq<lex::bytes<"[">, mark_name, sign<"]">> {};
struct speech_rest  : seq<lex::bytes<"[">, word<"pause">, number, unit, sign<"]">> {};
struct speech_words : plus<seq<not_at<lex::bytes<"[">>, lex::any>> {};
struct speech_part  : sor<speech_mark, speech_rest, speech_words> {};
struct speech_text  : seq<peg::star<speech_part>, eof> {};

}  // namespace lensward::grammar
// clang-format on
