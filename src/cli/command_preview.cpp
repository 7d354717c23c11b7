#include <arpa/inet.h>
#include <dlfcn.h>
#include <netinet/in.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>
#ifdef __GLIBC__
#include <malloc.h>
#endif

#include <csignal>
#include <thread>

#include "cli/commands.h"
#include "cli/previewing.h"

namespace lensward {
namespace {

constexpr int look_every = 25;  // ms
constexpr int looks_a_breath = 5000 / look_every;
constexpr const char* own_address = "127.0.0.1";

// ---- The listener ---------------------------------------------------------------------------------------------------

// It stays loaded.
void* module_of_listener() {
  void* library = ::dlopen(LENSWARD_LISTENER, RTLD_LAZY | RTLD_LOCAL);
  if (library == nullptr)
    throw CannotRun(
        "a preview needs " LENSWARD_LISTENER
        " beside the program, and the libraries cpp-httplib and qrencode (Debian: libcpp-httplib0.11, libqrencode4)");
  return library;
}

template <class Function>
Function* function_of(void* library, const char* name) {
  auto* function = reinterpret_cast<Function*>(::dlsym(library, name));
  if (function == nullptr) throw CannotRun(LENSWARD_LISTENER " is of another version than the program");
  return function;
}

// 128 bits from the system, in hexadecimal.
std::string random_token() {
  unsigned char bytes[16];
  if (::getentropy(bytes, sizeof bytes) != 0) throw CannotRun("the system gives no random numbers for the address");
  std::string token;
  for (const unsigned char byte : bytes) {
    token += "0123456789abcdef"[byte >> 4];
    token += "0123456789abcdef"[byte & 15];
  }
  return token;
}

// Of this machine in the network it is in: the one that a packet to elsewhere would leave from. None is sent.
std::string address_in_network() {
  const int socket = ::socket(AF_INET, SOCK_DGRAM | SOCK_CLOEXEC, 0);
  sockaddr_in elsewhere{};
  elsewhere.sin_family = AF_INET;
  elsewhere.sin_port = htons(9);
  // TEST-NET-1 (RFC 5737), which is nobody.
  ::inet_pton(AF_INET, "192.0.2.1", &elsewhere.sin_addr);
  sockaddr_in own{};
  socklen_t size = sizeof own;
  char text[INET_ADDRSTRLEN] = "";
  const bool found = socket >= 0 && ::connect(socket, reinterpret_cast<sockaddr*>(&elsewhere), sizeof elsewhere) == 0 &&
                     ::getsockname(socket, reinterpret_cast<sockaddr*>(&own), &size) == 0 &&
                     ::inet_ntop(AF_INET, &own.sin_addr, text, sizeof text) != nullptr;
  if (socket >= 0) ::close(socket);
  if (!found)
    throw CannotRun("this machine is in no network that a phone could reach it by; join one, or leave --phone out");
  return text;
}

// Threads come and go for as long as somebody writes: a heap for each would keep what the others could use.
void share_one_heap() {
#ifdef __GLIBC__
  ::mallopt(M_ARENA_MAX, 2);
  ::mallopt(M_MMAP_THRESHOLD, 1 << 18);
  ::mallopt(M_TRIM_THRESHOLD, 1 << 24);
#endif
}

// ---- The end --------------------------------------------------------------------------------------------------------

int ending[2] = {-1, -1};
void end_it(int) {
  const char byte = 0;
  [[maybe_unused]] const ssize_t told = ::write(ending[1], &byte, 1);
}

void end_at_signals() {
  if (::pipe(ending) != 0) throw CannotRun("the system gives no pipe");
  struct sigaction action{};
  action.sa_handler = end_it;
  for (const int signal : {SIGINT, SIGTERM, SIGHUP}) ::sigaction(signal, &action, nullptr);
}

// Until a signal comes.
void watch(Previewing& preview) {
  pollfd ear{ending[0], POLLIN, 0};
  for (int looks = 1; ::poll(&ear, 1, look_every) <= 0; ++looks) {
    preview.look();
    if (looks % looks_a_breath == 0) preview.breathe();
  }
}

}  // namespace

int command_preview(const PreviewOptions& options, Surroundings& around) {
  if (options.path == "-") throw CannotRun("a preview watches files; standard input is read but once");
  if (!around.host.canonical(options.path)) throw CannotRun("cannot read " + options.path + ": no such file");
  share_one_heap();
  void* library = module_of_listener();
  auto* make_listener = function_of<decltype(lensward_listener)>(library, "lensward_listener");
  const std::string address = options.phone ? address_in_network() : own_address;
  end_at_signals();
  Previewing preview(options.path, around.host);
  const std::unique_ptr<Listener> listener(make_listener(address.c_str(), options.port, &preview));
  if (listener->port() == 0)
    throw CannotRun(options.port == 0 ? "no port is free on " + address
                                      : "port " + std::to_string(options.port) + " on " + address +
                                            " is taken; leave --port out for one that is free");
  const std::string port = ':' + std::to_string(listener->port());
  Door door{random_token(), {address + port}};
  if (!options.phone) door.hosts.push_back("localhost" + port);
  // Browsers leave the usual port out (RFC 9110, 4.2.1).
  constexpr int usual_port = 80;
  if (listener->port() == usual_port) door.hosts.push_back(address);
  const std::string url = "http://" + address + port + '/' + door.token + '/';
  preview.open(std::move(door));
  std::thread listening([&] { listener->listen(); });
  put("-", url + "\n", around);
  if (options.phone) {
    std::string code;
    function_of<decltype(lensward_qr_code)>(library, "lensward_qr_code")(url.c_str(), &code);
    put("-", code, around);
    tell("lensward: whoever is in this network and has the address can look; Ctrl-C ends it");
  } else {
    tell("lensward: open the address in a browser of this machine; Ctrl-C ends it");
  }
  watch(preview);
  preview.end();
  listener->stop();
  listening.join();
  return 0;
}

}  // namespace lensward
