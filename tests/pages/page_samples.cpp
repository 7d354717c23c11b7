// Writes sample books and pictures into the directory given, for check_pages.py.
#include <fstream>
#include <iostream>
#include <string>

#include "export/export.h"
#include "sample_scene.h"

namespace {

using namespace lensward;

bool put(const std::string& path, const std::string& bytes) {
  std::ofstream file(path, std::ios::binary);
  file << bytes;
  return static_cast<bool>(file);
}

bool put_book(const std::string& path, const sample::Scene& scene) {
  return put(path, to_pdf(lay_out_book(scene.results())));
}

bool put_all(const std::string& directory) {
  const sample::Scene kitchen = sample::kitchen();
  const Sheet floor = lay_out_floor(kitchen.results(), 1, deciding_moment(kitchen.results(), 1));
  const Sheet frame = lay_out_frame(kitchen.results(), deciding_moment(kitchen.results(), 1));
  return put_book(directory + "/kitchen.pdf", kitchen) &&
         put_book(directory + "/crowd.pdf", sample::crowd(64, 60, 9, 80)) &&
         put_book(directory + "/hall.pdf", sample::crowd(6, 8, 60, 4)) &&
         put_book(directory + "/nobody.pdf", sample::crowd(0, 8, 6, 0)) &&
         put_book(directory + "/empty.pdf", sample::Scene{}) &&
         put(directory + "/floor.svg", to_svg(floor, &kitchen.sources)) &&
         put(directory + "/frame.svg", to_svg(frame, &kitchen.sources)) &&
         put(directory + "/floor.png", to_png(floor, 100)) &&
         put(directory + "/floor.pdf", to_pdf({"", "", "", {floor}}));
}

}  // namespace

int main(int count, char** arguments) {
  if (count != 2) {
    std::cerr << "usage: page_samples DIRECTORY\n";
    return 2;
  }
  return put_all(arguments[1]) ? 0 : 1;
}
