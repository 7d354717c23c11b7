// Changes in words: sentences for a terminal and for a review, fields for other programs.
#pragma once

#include <nlohmann/json.hpp>
#include <string>

#include "compare/changes.h"

namespace lensward {

// One sentence, names in backticks: "`Oda` stands 0.8 m further frame left, at the Table: mark O1 (1.2, 1.1) m".
std::string sentence(const Change& change);

// "beat `Papers`: was `Letter`".
std::string beat_heading(const BeatChanges& beat);
// "3 new errors, 5 new warnings, 1 gone".
std::string findings_counted(const Changes& changes);

// A heading a beat with its sentences below it, beats without change left out; then what is only counted. One sentence
// when nothing differs. Nothing from the writer's file reaches the terminal that could steer it.
std::string changes_text(const Changes& changes);
// The same as Markdown: a heading a beat, a bullet a sentence. Writer's words cannot start markup of their own.
std::string changes_markdown(const Changes& changes);
// "schema": "lensward/changes/1". Amounts are in m, deg, ms, percent points of the eye, stops, mm or findings.
nlohmann::ordered_json changes_json(const Changes& changes);

}  // namespace lensward
