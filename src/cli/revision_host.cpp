#include "cli/revision_host.h"

#include <dlfcn.h>
#include <git2.h>

#include <algorithm>
#include <filesystem>

namespace lensward {

const char* revision_library() { return "libgit2.so." LIBGIT2_SOVERSION; }

namespace {

namespace fs = std::filesystem;

// What is used of libgit2. It is loaded when a revision is asked for: it and the dozen libraries it brings would take
// half of the program's start, which every other command does without.
struct Git {
  decltype(&::git_libgit2_init) init;
  decltype(&::git_libgit2_shutdown) shut_down;
  decltype(&::git_error_last) last_error;
  decltype(&::git_repository_open_ext) open_repository;
  decltype(&::git_repository_workdir) work_folder;
  decltype(&::git_repository_free) free_repository;
  decltype(&::git_revparse_single) find_revision;
  decltype(&::git_object_peel) peel;
  decltype(&::git_object_free) free_object;
  decltype(&::git_tree_lookup) find_tree;
  decltype(&::git_tree_free) free_tree;
  decltype(&::git_tree_entry_bypath) find_entry;
  decltype(&::git_tree_entry_free) free_entry;
  decltype(&::git_tree_entrycount) entries;
  decltype(&::git_tree_entry_byindex) entry;
  decltype(&::git_tree_entry_name) name_of_entry;
  decltype(&::git_tree_entry_type) type_of_entry;
  decltype(&::git_tree_entry_filemode) mode_of_entry;
  decltype(&::git_tree_entry_id) id_of_entry;
  decltype(&::git_blob_lookup) find_blob;
  decltype(&::git_blob_rawsize) size_of_blob;
  decltype(&::git_blob_rawcontent) bytes_of_blob;
  decltype(&::git_blob_free) free_blob;
};

// False when the library has no such function.
template <class Function>
bool load(void* library, const char* name, Function& function) {
  function = reinterpret_cast<Function>(::dlsym(library, name));
  return function != nullptr;
}

// Null when the library is not there. It stays loaded.
const Git* git() {
  static Git found;
  static const bool whole = [] {
    void* library = ::dlopen(revision_library(), RTLD_LAZY | RTLD_LOCAL);
    return library != nullptr && load(library, "git_libgit2_init", found.init) &&
           load(library, "git_libgit2_shutdown", found.shut_down) &&
           load(library, "git_error_last", found.last_error) &&
           load(library, "git_repository_open_ext", found.open_repository) &&
           load(library, "git_repository_workdir", found.work_folder) &&
           load(library, "git_repository_free", found.free_repository) &&
           load(library, "git_revparse_single", found.find_revision) && load(library, "git_object_peel", found.peel) &&
           load(library, "git_object_free", found.free_object) && load(library, "git_tree_lookup", found.find_tree) &&
           load(library, "git_tree_free", found.free_tree) &&
           load(library, "git_tree_entry_bypath", found.find_entry) &&
           load(library, "git_tree_entry_free", found.free_entry) &&
           load(library, "git_tree_entrycount", found.entries) &&
           load(library, "git_tree_entry_byindex", found.entry) &&
           load(library, "git_tree_entry_name", found.name_of_entry) &&
           load(library, "git_tree_entry_type", found.type_of_entry) &&
           load(library, "git_tree_entry_filemode", found.mode_of_entry) &&
           load(library, "git_tree_entry_id", found.id_of_entry) && load(library, "git_blob_lookup", found.find_blob) &&
           load(library, "git_blob_rawsize", found.size_of_blob) &&
           load(library, "git_blob_rawcontent", found.bytes_of_blob) && load(library, "git_blob_free", found.free_blob);
  }();
  return whole ? &found : nullptr;
}

// Frees what libgit2 gave.
template <class Thing>
using Owned = std::unique_ptr<Thing, void (*)(Thing*)>;

template <class Thing, class Give>
Owned<Thing> owned(Give give, void (*free)(Thing*)) {
  Thing* raw = nullptr;
  const int error = give(&raw);
  return Owned<Thing>(error == 0 ? raw : nullptr, free);
}

// The library counts its users. Requires git().
struct Library {
  Library() { git()->init(); }
  ~Library() { git()->shut_down(); }
  Library(const Library&) = delete;
  Library& operator=(const Library&) = delete;
};

std::string last_reason() {
  const git_error* error = git()->last_error();
  return error != nullptr && error->message != nullptr ? error->message : "no reason given";
}

// As the disk has it, links followed as far as the path is there.
std::optional<fs::path> whole_path(const std::string& path) {
  std::error_code error;
  fs::path whole = fs::weakly_canonical(fs::absolute(path, error), error);
  if (error) return std::nullopt;
  if (!whole.has_filename()) whole = whole.parent_path();
  return whole;
}

class RevisionHost : public Host {
 public:
  RevisionHost(std::string revision, fs::path root, Owned<git_repository> repository, Owned<git_tree> tree)
      : revision_(std::move(revision)),
        root_(std::move(root)),
        repository_(std::move(repository)),
        tree_(std::move(tree)) {}

  std::variant<std::string, HostError> read(const std::string& path) override {
    if (path == "-") return HostError{"standard input has no revisions"};
    const auto entry = entry_at(path);
    if (!entry) return HostError{"no such file in revision " + revision_};
    if (git()->type_of_entry(entry.get()) != GIT_OBJECT_BLOB)
      return HostError{"is a directory in revision " + revision_};
    if (git()->mode_of_entry(entry.get()) == GIT_FILEMODE_LINK) {
      return HostError{"is a link in revision " + revision_ + ", and links of revisions are not followed"};
    }
    const auto blob = owned<git_blob>(
        [&](git_blob** raw) { return git()->find_blob(raw, repository_.get(), git()->id_of_entry(entry.get())); },
        git()->free_blob);
    if (!blob) return HostError{last_reason()};
    const auto size = static_cast<std::size_t>(git()->size_of_blob(blob.get()));
    if (size > largest_file) return HostError{"larger than 16 MiB"};
    return std::string(static_cast<const char*>(git()->bytes_of_blob(blob.get())), size);
  }

  std::variant<std::monostate, HostError> write(const std::string&, std::string_view) override {
    return HostError{"revisions are not written"};
  }

  std::optional<std::string> canonical(const std::string& path) override {
    const auto whole = whole_path(path);
    if (!whole || (*whole != root_ && !entry_at(path))) return std::nullopt;
    return whole->string();
  }

  std::optional<std::vector<std::string>> names_in(const std::string& folder) override {
    const auto inside = within(folder);
    if (!inside) return std::nullopt;
    if (*inside == ".") return names_of(tree_.get());
    const auto entry = entry_at(folder);
    if (!entry || git()->type_of_entry(entry.get()) != GIT_OBJECT_TREE) return std::nullopt;
    const auto tree = owned<git_tree>(
        [&](git_tree** raw) { return git()->find_tree(raw, repository_.get(), git()->id_of_entry(entry.get())); },
        git()->free_tree);
    if (!tree) return std::nullopt;
    return names_of(tree.get());
  }

 private:
  // The path as the tree has it; "." of the root, nothing outside the repository.
  std::optional<std::string> within(const std::string& path) const {
    const auto whole = whole_path(path);
    if (!whole) return std::nullopt;
    std::string inside = whole->lexically_relative(root_).string();
    if (inside.empty() || inside == ".." || inside.starts_with("../")) return std::nullopt;
    return inside;
  }

  Owned<git_tree_entry> entry_at(const std::string& path) const {
    const auto inside = within(path);
    if (!inside || *inside == ".") return {nullptr, git()->free_entry};
    return owned<git_tree_entry>(
        [&](git_tree_entry** raw) { return git()->find_entry(raw, tree_.get(), inside->c_str()); }, git()->free_entry);
  }

  static std::vector<std::string> names_of(const git_tree* tree) {
    std::vector<std::string> names;
    for (std::size_t i = 0; i < git()->entries(tree); ++i) {
      names.emplace_back(git()->name_of_entry(git()->entry(tree, i)));
    }
    std::sort(names.begin(), names.end());
    return names;
  }

  Library library_;
  std::string revision_;
  fs::path root_;
  Owned<git_repository> repository_;
  Owned<git_tree> tree_;
};

// The folder of a path that is there now, or the nearest above it.
std::string folder_there(const std::string& near) {
  fs::path folder = whole_path(near).value_or(fs::path("."));
  std::error_code error;
  while (!fs::is_directory(folder, error) && folder.has_relative_path()) folder = folder.parent_path();
  return folder.string();
}

}  // namespace

bool reads_revisions() { return git() != nullptr; }

std::variant<std::unique_ptr<Host>, HostError> open_revision(const std::string& revision, const std::string& near) {
  if (near == "-") return HostError{"standard input has no revisions; name a file"};
  if (git() == nullptr) {
    return HostError{"revisions are read through the library libgit2.so." LIBGIT2_SOVERSION
                     ", which is not here; install it, or compare two files"};
  }
  const Library library;
  auto repository = owned<git_repository>(
      [&](git_repository** raw) { return git()->open_repository(raw, folder_there(near).c_str(), 0, nullptr); },
      git()->free_repository);
  if (!repository) {
    return HostError{"there is no git repository that can be read at " + near + ": " + last_reason() +
                     "; compare two files instead"};
  }
  const char* work = git()->work_folder(repository.get());
  if (work == nullptr) {
    return HostError{"the git repository at " + near + " is bare, without files beside it; compare in a clone of it"};
  }
  const auto root = whole_path(work);
  const auto object =
      owned<git_object>([&](git_object** raw) { return git()->find_revision(raw, repository.get(), revision.c_str()); },
                        git()->free_object);
  if (!object || !root) {
    return HostError{"there is no revision `" + revision + "` in the repository; `git log --oneline` lists them"};
  }
  auto tree = owned<git_tree>(
      [&](git_tree** raw) {
        git_object* peeled = nullptr;
        const int error = git()->peel(&peeled, object.get(), GIT_OBJECT_TREE);
        *raw = reinterpret_cast<git_tree*>(peeled);
        return error;
      },
      git()->free_tree);
  if (!tree) return HostError{"`" + revision + "` is no revision with files in it; name a branch, a tag or a commit"};
  return std::make_unique<RevisionHost>(revision, *root, std::move(repository), std::move(tree));
}

}  // namespace lensward
