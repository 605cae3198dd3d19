// Host tool: compiles the table files to constexpr rows. It shares the core's parser and schemas, so a
// file that builds is a file that a shop overlay of the same shape can be laid over.
//
//     halfnut_compile_tables DATA_DIRECTORY OUTPUT_DIRECTORY
//
// Writes OUTPUT_DIRECTORY/builtin.cpp, builtin_<domain>.cpp and halfnut/<domain>/rules.hpp (of the core:
// halfnut/rules.hpp). What a domain's sources include changes only with that domain. Stops with file and line
// at a bad cell.

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <map>
#include <set>
#include <sstream>

#include "halfnut/table_info.hpp"

namespace {

namespace fs = std::filesystem;
using namespace halfnut;

std::string read_file(const fs::path& path) {
    std::ifstream file(path, std::ios::binary);
    if (!file) {
        throw TableError(fmt::format("{}:1: cannot be read", path.generic_string()));
    }
    return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

/// Rewrites the file only when its text changes, so that nothing is rebuilt for nothing.
void write_if_changed(const fs::path& path, const std::string& text) {
    fs::create_directories(path.parent_path());
    if (fs::exists(path) && read_file(path) == text) {
        return;
    }
    std::ofstream(path, std::ios::binary) << text;
}

std::string string_literal(std::string_view text) {
    std::string out = "\"";
    for (const char c : text) {
        if (c == '"' || c == '\\') {
            out += '\\';
        }
        out += c == '\n' ? ' ' : c;
    }
    return out + '"';
}

struct Literal {
    std::string operator()(double cell) const {
        if (std::isnan(cell)) {
            return "kNaN";
        }
        const std::string text = fmt::format("{}", cell);
        return text.find_first_of(".e") == std::string::npos ? text + ".0" : text;
    }
    std::string operator()(int cell) const { return fmt::format("{}", cell); }
    std::string operator()(bool cell) const { return cell ? "true" : "false"; }
    std::string operator()(std::string_view cell) const { return string_literal(cell); }
    std::string operator()(SourceId cell) const { return fmt::format("SourceId{{{}}}", cell.index); }
    std::string operator()(const EnumSpelling& cell) const {
        return fmt::format("detail::AnyEnum{{{}}}", static_cast<unsigned>(cell.value));
    }
};

std::string row_literal(const TableInfo& table, const std::byte* row) {
    std::string out = "{";
    for (const ColumnInfo& column : table.columns) {
        out += out.size() > 1 ? ", " : "";
        out += visit_cell(row, column, Literal{});
    }
    return out + "}";
}

class Compiler {
   public:
    explicit Compiler(fs::path data) : data_(std::move(data)) {}

    void run(const fs::path& output) {
        for (const TableInfo& info : table_infos()) {
            table(info);
        }
        refuse_strays();
        write_if_changed(output / "builtin.cpp", builtin_text());
        for (const auto& [domain, arrays] : arrays_) {
            write_if_changed(output / fmt::format("builtin_{}.cpp", domain),
                             file_text(headers_.at(domain), arrays + "}  // namespace detail\n"));
        }
        write_rules(output);
    }

   private:
    ParsedTable parsed(const fs::path& relative) {
        read_.insert(relative.generic_string());
        ParsedTable table = parse_table(read_file(data_ / relative), (data_ / relative).generic_string());
        return table;
    }

    void sources(const ParsedTable& table, std::string_view name) {
        for (const ParsedSource& source : table.sources) {
            sources_.push_back(fmt::format("{{{}, {}, detail::AnyEnum{{{}}}, {}}}", string_literal(name),
                                           string_literal(source.key), static_cast<unsigned>(source.kind),
                                           string_literal(source.citation)));
        }
    }

    void table(const TableInfo& info) {
        std::vector<std::string> rows;
        std::string domain = "core";
        const auto read = [&](const ParsedTable& text, std::string_view name) {
            RowBuffer typed = read_rows(info, text, static_cast<std::uint16_t>(sources_.size()));
            for (std::size_t i = 0; i < typed.size(); ++i) {
                rows.push_back(row_literal(info, typed[i]));
            }
            sources(text, name);
            return typed;
        };
        if (info.id == TableId::rules) {
            for (const fs::path& relative : rule_files()) {
                rules_.push_back({relative.parent_path().generic_string(), rows.size(), {}});
                const ParsedTable text = parsed(relative);
                const RowBuffer typed = read(text, rules_.back().domain + "/rules");
                for (const RuleRow& row : typed.as<RuleRow>()) {
                    rules_.back().ids.emplace_back(row.id);
                }
            }
        } else {
            const fs::path relative = std::string(info.name) + ".csv";
            domain = relative.parent_path().generic_string();
            const ParsedTable text = parsed(relative);
            read(text, info.name);
            if (rows.empty()) {
                throw TableError(fmt::format("{}:1: no rows", text.name));
            }
        }
        const std::string declared =
            fmt::format("const {} k_{}[{}]", info.row_type, info.member, rows.size());
        declared_ += fmt::format("extern {};\n", declared);
        std::string& arrays = arrays_[domain];
        arrays += fmt::format("extern {};\nconstinit {} = {{\n", declared, declared);
        for (const std::string& row : rows) {
            arrays += "    " + row + ",\n";
        }
        arrays += "};\n\n";
        headers_[domain].insert(info.header);
    }

    std::vector<fs::path> rule_files() const {
        std::vector<fs::path> files;
        for (const auto& entry : fs::recursive_directory_iterator(data_)) {
            if (entry.path().filename() == "rules.csv") {
                files.push_back(fs::relative(entry.path(), data_));
            }
        }
        std::sort(files.begin(), files.end());
        return files;
    }

    void refuse_strays() const {
        for (const auto& entry : fs::recursive_directory_iterator(data_)) {
            const std::string relative = fs::relative(entry.path(), data_).generic_string();
            if (entry.is_regular_file() && entry.path().filename() != "README.md" &&
                read_.count(relative) == 0) {
                throw TableError(fmt::format("{}:1: no row type in the catalogue reads this file",
                                             entry.path().generic_string()));
            }
        }
    }

    static std::string file_text(const std::set<std::string_view>& headers, std::string_view body) {
        std::string includes;
        for (const std::string_view header : headers) {
            includes += fmt::format("#include \"halfnut/{}\"\n", header);
        }
        return fmt::format(
            "// Compiled from cpp/data by halfnut_compile_tables.\n\n"
            "{}\nnamespace halfnut {{\nnamespace detail {{\nnamespace {{\n\n"
            "/// A value of whatever enumeration the member has.\n"
            "struct AnyEnum {{\n    unsigned value;\n    template <class E>\n        requires "
            "std::is_enum_v<E>\n"
            "    constexpr operator E() const {{\n        return static_cast<E>(value);\n    }}\n}};\n\n"
            "}}  // namespace\n\n{}}}  // namespace halfnut\n",
            includes, body);
    }

    std::string builtin_text() const {
        std::set<std::string_view> headers{"builtin.hpp"};
        std::string out = "constexpr SourceRow kSources[] = {\n";
        for (const std::string& source : sources_) {
            out += "    " + source + ",\n";
        }
        out += "};\n\nconstexpr std::uint16_t kRuleStarts[] = {";
        for (const RuleFile& file : rules_) {
            out += fmt::format("{}, ", file.start);
        }
        out += "};\n\n" + declared_ +
               "\nconstexpr Catalogue make_builtin() {\n    Catalogue catalogue;\n"
               "    catalogue.sources = kSources;\n    catalogue.rule_starts = kRuleStarts;\n";
        for (const TableInfo& info : table_infos()) {
            headers.insert(info.header);
            out += fmt::format("    catalogue.{0} = k_{0};\n", info.member);
        }
        out +=
            "    return catalogue;\n}\n\nconstinit const Catalogue kBuiltin = make_builtin();\n\n}  // "
            "namespace detail\n\nconst Catalogue& builtin() noexcept {\n    return detail::kBuiltin;\n}\n\n";
        return file_text(headers, out);
    }

    void write_rules(const fs::path& output) const {
        for (std::size_t number = 0; number < rules_.size(); ++number) {
            const RuleFile& file = rules_[number];
            const bool core = file.domain == "core";
            std::string out = fmt::format(
                "#pragma once\n"
                "// The rules by name, compiled from cpp/data/{}/rules.csv by halfnut_compile_tables.\n\n"
                "#include \"halfnut/evidence.hpp\"\n\nnamespace halfnut{}::rule {{\n",
                file.domain, core ? "" : "::" + file.domain);
            for (std::size_t place = 0; place < file.ids.size(); ++place) {
                out += fmt::format("inline constexpr RuleId {}{{{}, {}}};\n", file.ids[place], number, place);
            }
            write_if_changed(output / "halfnut" / (core ? "" : file.domain) / "rules.hpp", out + "}\n");
        }
    }

    /// The rules of one domain.
    struct RuleFile {
        std::string domain;
        std::size_t start;  ///< place of the first in Catalogue::rules
        std::vector<std::string> ids;
    };

    fs::path data_;
    std::set<std::string> read_;
    std::vector<std::string> sources_;
    std::vector<RuleFile> rules_;
    std::string declared_;
    std::map<std::string, std::string> arrays_;                  ///< by domain
    std::map<std::string, std::set<std::string_view>> headers_;  ///< by domain: what its rows are defined in
};

}  // namespace

int main(int argc, char** argv) {
    if (argc != 3) {
        std::cerr << "usage: halfnut_compile_tables DATA_DIRECTORY OUTPUT_DIRECTORY\n";
        return 2;
    }
    try {
        Compiler(argv[1]).run(argv[2]);
    } catch (const std::exception& error) {
        std::cerr << error.what() << '\n';
        return 1;
    }
    return 0;
}
