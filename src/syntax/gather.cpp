#include "syntax/gather.h"

#include <algorithm>
#include <optional>
#include <utility>

#include "syntax/broken.h"
#include "syntax/film_path.h"
#include "syntax/parse.h"

namespace lensward {
namespace {

constexpr std::size_t most_files = 1000;
constexpr std::size_t deepest_use = 8;
constexpr int folders_above = 8;
constexpr std::string_view staging_ending = ".staging";

// The folder of a path, as typed; "." of a bare name.
std::string folder_of(const std::string& path) {
  const std::size_t slash = path.rfind('/');
  if (slash == std::string::npos) return ".";
  return slash == 0 ? "/" : path.substr(0, slash);
}

std::string folder_above(const std::string& folder) {
  if (folder == ".") return "..";
  const std::size_t slash = folder.rfind('/');
  const std::string last = folder.substr(slash == std::string::npos ? 0 : slash + 1);
  if (last == ".." || last == "." || last.empty()) return folder + "/..";
  return folder_of(folder);
}

struct Headers {
  bool present = false;
  FileKind kind = FileKind::scene;
  bool newer = false;
  Span span;
};

Headers headers_of(const Script& script) {
  for (const Statement& statement : script.statements) {
    const auto* header = std::get_if<HeaderLine>(&statement.body);
    if (header != nullptr) return {true, header->kind, header->major > 1, statement.span};
    break;
  }
  return {};
}

const char* word_of(FileKind kind) {
  switch (kind) {
    case FileKind::film:
      return "film";
    case FileKind::company:
      return "company";
    case FileKind::kit:
      return "kit";
    case FileKind::set:
      return "set";
    case FileKind::scene:
      break;
  }
  return "scene";
}

bool may_use(FileKind user, FileKind used) {
  switch (user) {
    case FileKind::film:
      return used == FileKind::company || used == FileKind::kit || used == FileKind::set;
    case FileKind::scene:
      return used == FileKind::set || used == FileKind::kit;
    case FileKind::set:
      return used == FileKind::set;
    default:
      return false;
  }
}

std::string kinds_for(FileKind user) {
  switch (user) {
    case FileKind::film:
      return "a film uses files of kind company, kit and set";
    case FileKind::set:
      return "a set uses files of kind set";
    default:
      return "a scene uses files of kind set and kit";
  }
}

class Gatherer {
 public:
  Gatherer(Host& host, SourceSet& sources, Gathered& gathered, Findings& findings)
      : host_(host), sources_(sources), gathered_(gathered), findings_(&findings) {}

  std::variant<int, HostError> root(const std::string& path) {
    auto bytes = host_.read(path);
    if (const auto* error = std::get_if<HostError>(&bytes)) return *error;
    const std::string canonical = host_.canonical(path).value_or(path);
    if (const int known = known_as(canonical); known >= 0) {
      folder_ = folder_of(path);
      if (at(known).kind == FileKind::film) read_scenes(known, most_files);
      return known;
    }
    const int file = add(path, canonical, std::get<std::string>(std::move(bytes)));
    if (at(file).kind == FileKind::film) {
      folder_ = folder_of(path);
      at(file).film = file;
      follow_uses(file, {});
      check_order(file);
      read_scenes(file, most_files);
      return file;
    }
    find_film(path);
    at(file).film = film_;
    follow_uses(file, {});
    read_scenes_before(file);
    return file;
  }

  int add(const std::string& name, const std::string& canonical, std::string bytes) {
    const std::int32_t source = sources_.add(SourceFile(name, std::move(bytes)));
    GatheredFile file;
    file.canonical = canonical;
    const std::size_t told = findings_->all().size();
    file.tree = parse(sources_, source, *findings_);
    file.script = read_script(sources_, file.tree, *findings_);
    if (file.script.statements.empty() && findings_->all().size() == told) report_empty(source);
    const Headers headers = headers_of(file.script);
    file.kind = headers.kind;
    file.complete = !headers.newer;
    gathered_.files.push_back(std::move(file));
    return static_cast<int>(gathered_.files.size()) - 1;
  }

 private:
  GatheredFile& at(int index) { return gathered_.files[static_cast<std::size_t>(index)]; }

  int known_as(const std::string& canonical) const {
    for (std::size_t i = 0; i < gathered_.files.size(); ++i) {
      if (gathered_.files[i].canonical == canonical) return static_cast<int>(i);
    }
    return -1;
  }

  // Reading reports lines; a file without any would pass unnoticed.
  void report_empty(std::int32_t source) {
    findings_->add(reading_error("parse.header-missing", {source, 0, 0}, "there is not one line in this file",
                                 "begin it with `staging 1.0 scene`"));
  }

  // ---- The film ----------------------------------------------------------------------------------------------------

  void find_film(const std::string& path) {
    folder_ = folder_of(path);
    if (path == "-") return;
    std::string folder = folder_;
    for (int up = 0; up <= folders_above; ++up, folder = folder_above(folder)) {
      const std::string film = joined_path(folder, "film.staging");
      const auto canonical = host_.canonical(film);
      if (!canonical) continue;
      auto bytes = host_.read(film);
      if (std::holds_alternative<HostError>(bytes)) continue;
      folder_ = folder;
      film_ = known_as(*canonical);
      if (film_ < 0) read_film(film, *canonical, std::get<std::string>(std::move(bytes)));
      return;
    }
  }

  void read_film(const std::string& name, const std::string& canonical, std::string bytes) {
    const int film = add(name, canonical, std::move(bytes));
    const Headers headers = headers_of(at(film).script);
    if (at(film).kind != FileKind::film) {
      const Span where = headers.present ? headers.span : Span{at(film).tree.file, 0, 0};
      findings_->add(reading_error(
          "name.wrong-kind", where,
          std::string("`film.staging` says it is a ") + word_of(at(film).kind) + ", so this folder has no film",
          "begin it with `staging 1.0 film`"));
      return;
    }
    film_ = film;
    at(film).film = film;
    follow_uses(film, {});
    check_order(film);
  }

  std::vector<Quoted> lines_of(int film, UseLine::Kind kind) {
    std::vector<Quoted> paths;
    for (const Statement& statement : at(film).script.statements) {
      const auto* use = std::get_if<UseLine>(&statement.body);
      if (use != nullptr && use->kind == kind) paths.push_back(use->path);
    }
    return paths;
  }

  void check_order(int film) {
    for (const Quoted& font : lines_of(film, UseLine::Kind::font)) check_font(font);
    if (!lines_of(film, UseLine::Kind::order).empty()) return;
    const auto heading =
        std::find_if(at(film).script.statements.begin(), at(film).script.statements.end(),
                     [](const Statement& statement) { return std::holds_alternative<HeadingLine>(statement.body); });
    const Span where = heading != at(film).script.statements.end() ? heading->span : Span{at(film).tree.file, 0, 0};
    findings_->add(reading_error("name.file-missing", where, "this film has no scenes: no `order` line names one",
                                 "add one line for each: `order \"scenes/mess-room\"`"));
  }

  void check_font(const Quoted& path) {
    const bool otf = path.words.ends_with(".otf");
    const std::string_view ending = otf ? ".otf" : ".ttf";
    if (const auto why = refusal_of(path.words, ending)) {
      report_refused(path, otf ? *why : *why + ", nor with `.otf`");
      return;
    }
    const std::string bare = path.words.substr(0, path.words.size() - ending.size());
    const auto found = find_in_film(host_, folder_, bare, ending);
    if (!std::holds_alternative<FoundFile>(found)) report_not_found(path, found, ending);
  }

  void read_scenes(int film, std::size_t count) {
    const std::vector<Quoted> paths = lines_of(film, UseLine::Kind::order);
    for (std::size_t i = at(film).scenes.size(); i < std::min(count, paths.size()); ++i) {
      const Quoted& path = paths[i];
      const std::optional<int> scene = find_file(path);
      if (scene && at(*scene).kind != FileKind::scene) {
        findings_->add(reading_error(
            "name.wrong-kind", path.span,
            "`" + path.words + "` is a " + word_of(at(*scene).kind) + ", and `order` puts scenes in order",
            "bring it in with `use`, or name a scene"));
      }
      const bool fits = scene && at(*scene).kind == FileKind::scene;
      if (fits && at(*scene).film < 0) {
        at(*scene).film = film;
        follow_uses(*scene, {});
      }
      at(film).scenes.push_back(fits ? *scene : -1);
    }
  }

  static bool follows_another(const Script& script) {
    return std::any_of(script.statements.begin(), script.statements.end(), [](const Statement& statement) {
      const auto* heading = std::get_if<HeadingLine>(&statement.body);
      return heading != nullptr && heading->kind == HeadingLine::Kind::opening && heading->of;
    });
  }

  // What is wrong with the other scenes is told when they are checked.
  void read_scenes_before(int scene) {
    if (film_ < 0 || !follows_another(at(scene).script)) return;
    Findings others;
    Findings* const told = std::exchange(findings_, &others);
    const std::size_t all = lines_of(film_, UseLine::Kind::order).size();
    for (std::size_t count = 1; count <= all; ++count) {
      read_scenes(film_, count);
      if (at(film_).scenes.back() == scene) break;
    }
    findings_ = told;
  }

  // ---- Files used --------------------------------------------------------------------------------------------------

  void follow_uses(int user, std::vector<int> chain) {
    chain.push_back(user);
    for (const Quoted& path : lines_of(user, UseLine::Kind::use)) {
      const std::optional<int> used = find_file(path);
      if (!used) {
        at(user).complete = false;
        continue;
      }
      if (closes_circle(chain, *used, path)) continue;
      if (!fits(user, *used, path)) continue;
      if (!at(*used).uses_followed) follow_uses(*used, chain);
      if (!at(*used).complete) at(user).complete = false;
      at(user).uses.push_back(*used);
    }
    at(user).uses_followed = true;
  }

  std::optional<int> find_file(const Quoted& path) {
    if (const auto why = refusal_of(path.words)) {
      report_refused(path, *why);
      return std::nullopt;
    }
    const auto found = find_in_film(host_, folder_, path.words, staging_ending);
    const auto* file = std::get_if<FoundFile>(&found);
    if (file == nullptr) {
      report_not_found(path, found, staging_ending);
      return std::nullopt;
    }
    if (const int known = known_as(file->canonical); known >= 0) return known;
    if (gathered_.files.size() >= most_files) {
      findings_->add(reading_error("parse.too-long", path.span, "this film has more than 1,000 files",
                                   "join some of them into one"));
      return std::nullopt;
    }
    auto bytes = host_.read(file->path);
    if (const auto* error = std::get_if<HostError>(&bytes)) {
      findings_->add(reading_error("name.file-missing", path.span,
                                   "`" + path.words + ".staging` cannot be read: " + error->reason,
                                   "mend the file, or name another"));
      return std::nullopt;
    }
    return add(file->path, file->canonical, std::get<std::string>(std::move(bytes)));
  }

  void report_refused(const Quoted& path, const std::string& why) {
    Finding finding =
        reading_error("name.path-refused", path.span, in_ticks(path.words) + " is no path of a film: " + why,
                      "name a file of the film, from its folder: `use \"sets/mess-room\"`");
    finding.on_set = "a film that holds all its files in one folder can be handed on whole";
    findings_->add(std::move(finding));
  }

  void report_not_found(const Quoted& path, const std::variant<FoundFile, NotFound, LeadsOut>& found,
                        std::string_view ending) {
    if (std::holds_alternative<LeadsOut>(found)) return report_refused(path, "a link leads out of the film's folder");
    const std::string ended = path.words.ends_with(ending) ? path.words : path.words + std::string(ending);
    Finding finding = reading_error("name.file-missing", path.span, "there is no file " + in_ticks(ended),
                                    "put it in the film's folder, or mend the path");
    if (const auto* missing = std::get_if<NotFound>(&found); missing != nullptr && !missing->alike.empty()) {
      finding.message +=
          "; the folder holds " + in_ticks(missing->alike + std::string(ending)) + ", and capitals count on every disk";
      finding.next_step = "write " + in_ticks(missing->alike);
      finding.repairs.push_back({Repair::Kind::safe, finding.next_step, {{path.span, missing->alike}}});
    }
    findings_->add(std::move(finding));
  }

  bool closes_circle(const std::vector<int>& chain, int used, const Quoted& path) {
    const auto again = std::find(chain.begin(), chain.end(), used);
    if (again == chain.end() && chain.size() < deepest_use) return false;
    if (again == chain.end()) {
      findings_->add(reading_error("name.use-circle", path.span, "files use one another more than 8 deep here",
                                   "use the file from one further up"));
    } else {
      std::string names;
      for (auto file = again; file != chain.end(); ++file) names += name_of_file(*file) + ", ";
      findings_->add(reading_error("name.use-circle", path.span,
                                   "these files use each other: " + names + name_of_file(used),
                                   "put what both need into a third file"));
    }
    return true;
  }

  bool fits(int user, int used, const Quoted& path) {
    const bool told = headers_of(at(used).script).present;
    if (!told || may_use(at(user).kind, at(used).kind)) return true;
    Finding finding = reading_error(
        "name.wrong-kind", path.span,
        in_ticks(path.words) + " is a file of kind " + word_of(at(used).kind) + "; " + kinds_for(at(user).kind),
        at(used).kind == FileKind::scene ? "a film lists its scenes with `order`"
                                         : "bring it in where its kind may stand");
    findings_->add(std::move(finding));
    return false;
  }

  std::string name_of_file(int file) { return '`' + sources_.file(at(file).tree.file).name() + '`'; }

  Host& host_;
  SourceSet& sources_;
  Gathered& gathered_;
  Findings* findings_;
  std::string folder_ = ".";
  int film_ = -1;
};

void add_with_uses(const Gathered& gathered, int file, std::vector<int>& list) {
  if (std::find(list.begin(), list.end(), file) != list.end()) return;
  for (int used : gathered.files[static_cast<std::size_t>(file)].uses) add_with_uses(gathered, used, list);
  list.push_back(file);
}

}  // namespace

std::variant<int, HostError> gather(Host& host, const std::string& path, SourceSet& sources, Gathered& gathered,
                                    Findings& findings) {
  return Gatherer(host, sources, gathered, findings).root(path);
}

std::vector<int> files_for(const Gathered& gathered, int scene) {
  std::vector<int> list;
  const int film = gathered.files[static_cast<std::size_t>(scene)].film;
  if (film >= 0) add_with_uses(gathered, film, list);
  add_with_uses(gathered, scene, list);
  return list;
}

}  // namespace lensward
