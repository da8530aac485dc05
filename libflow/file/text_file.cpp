// SPDX-License-Identifier: MIT
#include <libflow/file/text_file.hpp>

#include <cerrno>
#include <cstddef>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <string>
#include <string_view>
#include <system_error>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <fmt/core.h>

#include <libflow/core/error.hpp>
#include <libflow/units/quote.hpp>

namespace libflow {

std::string_view words_of(TextKind kind) {
  return kind == TextKind::layout ? "a layout file" : "a file of cups (lines 'row, volume')";
}

std::string file_place(std::string_view file, std::size_t line, std::size_t column) {
  return fmt::format("{}:{}:{}", file, line, column);
}

namespace file_detail {

/// Walks the text once, keeping line and column, and refuses what no layout holds.
class TextCheck {
 public:
  TextCheck(std::string_view text, std::string_view file, TextKind kind) : text_(text), file_(file), kind_(kind) {}

  void run() {
    if (text_.starts_with("\xEF\xBB\xBF")) text_.remove_prefix(3);
    if (text_.find_first_not_of(" \t\r\n") == std::string_view::npos) {
      throw InputError(std::string(file_), "is empty", std::string(words_of(kind_)));
    }
    while (!text_.empty()) step();
    end_line();
  }

 private:
  [[noreturn]] void fail(std::string what, std::string allowed) const {
    throw InputError(file_place(file_, line_, column_), std::move(what), std::move(allowed));
  }

  void step() {
    unsigned code = 0;
    const std::size_t n = units_detail::utf8_length(text_, code);
    if (n == 0) {
      const auto byte = static_cast<unsigned>(static_cast<unsigned char>(text_[0]));
      fail(fmt::format("is not UTF-8 text (byte 0x{:02X})", byte), "plain text saved as UTF-8");
    }
    if (code == 0) fail("is a binary file (a zero byte)", "plain text saved as UTF-8");
    const bool line_end = text_.starts_with("\r\n");
    // U+0085, U+2028 and U+2029 end a line for some readers and not for others.
    const bool odd_line_end = code == 0x85 || code == 0x2028 || code == 0x2029;
    if ((code < 0x20 && code != '\t' && code != '\n' && !line_end) || code == 0x7F || odd_line_end) {
      fail(fmt::format("holds the control character 0x{:02X}", code), "plain text");
    }
    if (code == '\n') end_line();
    if (kind_ == TextKind::layout) structure(code);
    text_.remove_prefix(n);
    ++column_;
    if (code == '\n') {
      ++line_;
      column_ = 1;
      dots_ = 0;
      inside_ = 0;
      before_ = 0;
    }
  }

  /// A quote that is open at the end of its line is a slip that a parser would report anywhere below.
  void end_line() const {
    if (inside_ != '"' && inside_ != '\'') return;
    throw InputError(file_place(file_, line_, opened_), "the quote that begins here is not closed on its line",
                     "a quote at both ends of a text, e.g. length = \"14 ft\"");
  }

  /// Follows quotes and comments as TOML has them, so that brackets and dots count only where they mean structure.
  void structure(unsigned code) {
    if (code == '\n' || inside_ == '#') return;
    if (escaped_) {
      escaped_ = false;
      return;
    }
    if (inside_ != 0) {
      if (code == '\\' && inside_ == '"')
        escaped_ = true;
      else if (code == inside_)
        inside_ = 0;
      return;
    }
    const unsigned before = before_;
    if (code != ' ' && code != '\t') before_ = code;
    switch (code) {
      case '#':
        inside_ = '#';
        break;
      case '"':
      case '\'':
        if (text_.starts_with("\"\"\"") || text_.starts_with("'''")) {
          fail("begins a text of several lines", "text within one line, in single or double quotes");
        }
        // Elsewhere toml++ reads on as if there were no quote, and would say something else.
        if (before != 0 && std::string_view("=,[{.").find(static_cast<char>(before)) == std::string_view::npos) {
          fail("has a quote in the middle", "a quote only where a text or a key begins, and one where it ends");
        }
        inside_ = code;
        opened_ = column_;
        break;
      case '[':
      case '{':
        if (++depth_ > deepest_brackets) fail("brackets nested too deep", fmt::format("{} levels", deepest_brackets));
        break;
      case ']':
      case '}':
        depth_ -= depth_ > 0 ? 1 : 0;
        break;
      case '.':
        if (++dots_ > most_dots) fail("too many dots in one line", fmt::format("{}", most_dots));
        break;
      default:
        // Not allowed by TOML; the quotes of a text processor are the common slip.
        if (code > 0x7F) {
          fail("holds " + in_quotes(text_.substr(0, units_detail::utf8_length(text_, code))) + " outside of quotes",
               "plain keys without accents; everything else in straight quotes: \"...\"");
        }
        break;
    }
  }

  std::string_view text_, file_;
  TextKind kind_;
  std::size_t line_ = 1, column_ = 1, depth_ = 0, dots_ = 0;
  std::size_t opened_ = 0;  // the column of the quote that is open
  unsigned inside_ = 0;     // the quote or comment mark that is open
  unsigned before_ = 0;     // the last character of the line outside of quotes that is no space; 0: none
  bool escaped_ = false;
};

}  // namespace file_detail

void check_text(std::string_view text, std::string_view file, TextKind kind) {
  if (text.size() > largest_text_file) {
    throw InputError(std::string(file), fmt::format("is too large for {}", words_of(kind)),
                     fmt::format("at most {} bytes", largest_text_file));
  }
  file_detail::TextCheck(text, file, kind).run();
}

std::string read_text_file(const std::filesystem::path& path, TextKind kind) {
  const std::string name = path.string();
  std::error_code error;
  const auto status = std::filesystem::status(path, error);
  if (!std::filesystem::exists(status)) {
    const bool missing = error == std::errc::no_such_file_or_directory;
    throw InputError(name, missing ? "there is no such file" : fmt::format("cannot be read: {}", error.message()),
                     std::string(words_of(kind)));
  }
  if (std::filesystem::is_directory(status)) throw InputError(name, "is a folder", std::string(words_of(kind)));
  std::ifstream in(path, std::ios::binary);
  if (!in) throw InputError(name, fmt::format("cannot be read: {}", std::strerror(errno)), "a file that you may read");
  std::string text(largest_text_file + 1, '\0');
  in.read(text.data(), static_cast<std::streamsize>(text.size()));
  if (in.bad()) throw InputError(name, "could not be read to its end", "a readable file");
  text.resize(static_cast<std::size_t>(in.gcount()));
  if (text.size() > largest_text_file) {
    throw InputError(name, fmt::format("is too large for {}", words_of(kind)),
                     fmt::format("at most {} bytes", largest_text_file));
  }
  return text;
}

void write_text_file(const std::filesystem::path& path, std::string_view text, Existing existing) {
  std::string name = path.string();
  const auto fail = [&](std::string_view doing) {
    throw InputError(name, fmt::format("{}: {}", doing, std::strerror(errno)),
                     "a file in a folder that you may write to");
  };
  std::error_code error;
  if (name.empty()) throw InputError("output", "has no name", "the name of a file to write");
  if (std::filesystem::exists(path, error) && !std::filesystem::is_regular_file(path, error)) {
    throw InputError(name, "is a folder or a device", "the name of a file to write");
  }
  const std::filesystem::path folder = path.parent_path();
  if (!folder.empty() && !std::filesystem::is_directory(folder, error)) {
    throw InputError(name, fmt::format("there is no folder {}", in_quotes(folder.string(), 200)),
                     "a folder that is there: make it first, or choose another");
  }
  if (std::filesystem::is_symlink(path, error)) name = std::filesystem::weakly_canonical(path, error).string();
  if (existing == Existing::refuse && std::filesystem::exists(path, error)) {
    throw InputError(name, "exists already and was left as it is", "another name, or --force to replace it");
  }
  constexpr std::size_t drawn_letters = 6;  // what mkstemp replaces
  std::string fresh = name + "." + std::string(drawn_letters, 'X');
  const int file = ::mkstemp(fresh.data());
  if (file < 0) fail("cannot be written");
  const auto drop = [&](std::string_view doing) {
    const int reason = errno;
    ::unlink(fresh.c_str());
    errno = reason;
    fail(doing);
  };
  std::string_view rest = text;
  while (!rest.empty()) {
    const ssize_t n = ::write(file, rest.data(), rest.size());
    if (n < 0 && errno == EINTR) continue;
    if (n < 0) {
      ::close(file);
      drop("could not be written to its end");
    }
    rest.remove_prefix(static_cast<std::size_t>(n));
  }
  // mkstemp makes files private; give the permissions that the user's umask allows, as any other program would.
  const mode_t mask = ::umask(0);
  ::umask(mask);
  if (::fchmod(file, 0666 & ~mask) != 0 || ::fsync(file) != 0 || ::close(file) != 0) drop("could not be finished");
  // link() refuses to replace, so a file that appeared meanwhile is kept too; rename() replaces in one step
  // (and serves where the disk has no links).
  const bool linked = existing == Existing::refuse && ::link(fresh.c_str(), name.c_str()) == 0;
  if (linked) {
    ::unlink(fresh.c_str());
  } else if (existing == Existing::refuse && errno == EEXIST) {
    drop("exists already and was left as it is");
  } else if (::rename(fresh.c_str(), name.c_str()) != 0) {
    drop("could not be put in place");
  }
}

}  // namespace libflow
