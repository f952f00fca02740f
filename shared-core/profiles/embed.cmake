# Writes a C++ file that holds the profile files as string literals.
# Called with -DFILES=<list of paths> -DOUTPUT=<path>.
set(text "// Generated from shared-core/profiles.\n#include \"rules/embedded_profiles.h\"\n\n")
string(APPEND text "namespace courthand::rules {\n\n")
string(APPEND text "const std::vector<EmbeddedProfile>& embedded_profiles() {\n")
string(APPEND text "    static const std::vector<EmbeddedProfile> all{\n")
foreach(path IN LISTS FILES)
    get_filename_component(id ${path} NAME_WE)
    file(READ ${path} content)
    string(APPEND text "        {\"${id}\", R\"toml(${content})toml\"},\n")
endforeach()
string(APPEND text "    };\n    return all;\n}\n\n}  // namespace courthand::rules\n")
file(WRITE ${OUTPUT} "${text}")
