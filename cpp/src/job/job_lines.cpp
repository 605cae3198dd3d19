// Lines of a job's file, which a reader of TOML does not tell.

#include <algorithm>
#include <string_view>

#include "halfnut/job/job_file.hpp"

namespace halfnut::job {

namespace {

using std::string_view;

string_view without_blanks(string_view text) {
    return text.substr(std::min(text.find_first_not_of(" \t\r"), text.size()));
}
/// What is left after a word and the blanks around it; nothing where the text does not begin so.
string_view after(string_view text, string_view word) {
    text = without_blanks(text);
    return text.starts_with(word) ? without_blanks(text.substr(word.size())) : string_view();
}

/// Where a text in quotes or a comment ends that begins here; where neither does, the next letter.
std::size_t end_of(string_view text, std::size_t from) {
    const char mark = text[from];
    if (mark == '#') {
        return std::min(text.find('\n', from), text.size());
    }
    if (mark != '"' && mark != '\'') {
        return from + 1;
    }
    const string_view three = text.substr(from, 3);
    const string_view close = three == string_view(R"(""")") || three == "'''" ? three : three.substr(0, 1);
    for (std::size_t at = from + close.size(); at < text.size(); ++at) {
        if (text.substr(at).starts_with(close)) {
            return at + close.size();
        }
        at += mark == '"' && text[at] == '\\' ? 1 : 0;
    }
    return text.size();
}

}  // namespace

std::vector<PartLines> lines_of(string_view text) {
    std::vector<PartLines> out;
    int line = 1;
    int depth = 0;
    bool listing = false;  // the operations of a part, in a list
    const auto begin = [&](string_view rest) {
        const string_view header = after(after(rest, "[["), "parts");
        listing = after(rest, "operations").starts_with('=');
        if (header.starts_with("]]")) {
            out.push_back({line, {}});
        } else if (!out.empty() && after(after(header, "."), "operations").starts_with("]]")) {
            out.back().operations.push_back(line);
        }
    };
    begin(text);
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(end_of(text, at), text.size());
        const char mark = text[at];
        if (mark == '\n') {
            ++line;
            if (depth == 0) {
                begin(text.substr(end));
            }
        } else if (mark == '[' || mark == '{') {
            ++depth;
            if (listing && mark == '{' && depth == 2 && !out.empty()) {
                out.back().operations.push_back(line);
            }
        } else if (mark == ']' || mark == '}') {
            --depth;
        } else {
            const string_view word = text.substr(at, end - at);
            line += static_cast<int>(std::count(word.begin(), word.end(), '\n'));
        }
        at = end;
    }
    return out;
}

}  // namespace halfnut::job
