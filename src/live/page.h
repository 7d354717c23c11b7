// The scene as one HTML file that plays it: frame and overhead moving in the computed time, words lit as they are
// spoken, findings on the time line, what each person has to do. Without scripts it is a list of still beats.
#pragma once

#include <string>

#include "live/pictures.h"
#include "pages/lay_out.h"

namespace lensward {

// UTF-8, about two megabytes, less for a short scene. It holds all it needs, asks no network for anything, and tells
// the browser to refuse whatever else should try. Same results, same bytes. A scene without beats or without a camera
// gives a page without what they would show.
std::string page_of(const Results& results, const PictureBegins& begins = {});

// The same page while the scene is being written: its pictures are fetched by address as they are drawn, it is told of
// every new text and renews itself (preview.js, docs/preview.md), it has the charts of the eye, and it knows the line
// of each person, mark and finding. The results may be those of an early stage: without attention nothing says who has
// the eye.
std::string preview_page_of(const Results& results);

}  // namespace lensward
