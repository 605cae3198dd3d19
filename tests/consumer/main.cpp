// Uses the installed package as another program would: a function and a built-in table.
#include <halfnut/core/builtin.hpp>
#include <halfnut/core/quantity.hpp>
#include <iostream>

int main() {
    const halfnut::Length drill = halfnut::parse_length("letter F", halfnut::builtin());
    std::cout << "letter F drill: " << halfnut::trimmed(drill.in(), 4) << " in\n";
    return drill.in() == 0.257 ? 0 : 1;
}
