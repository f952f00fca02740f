// The wire format does not change under those who already speak it.
//
// `descriptors.golden.txt` lists every field, enum value and call. A line that vanished or changed
// fails. A new line fails too until the list is written again with the environment variable
// COURTHAND_WRITE_DESCRIPTORS=1, which refuses to drop or change a line.
#include <google/protobuf/descriptor.h>
#include <google/protobuf/descriptor.pb.h>
#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>
#include <map>
#include <memory>
#include <string>
#include <vector>

namespace {

namespace pb = google::protobuf;

const char* const files[] = {"common",    "roster", "fact",       "entry",
                             "profile",   "match",  "sync",       "venue",
                             "enrolment", "desk",   "tournament", "tournament_service",
                             "export"};

/// What stands after the name: number, type and label of a field, and so on.
using Lines = std::map<std::string, std::string>;

/// The .proto files as they stand in the source, with their comments.
class Sources {
  public:
    Sources() {
        pb::FileDescriptorSet set;
        std::ifstream in{COURTHAND_DESCRIPTOR_SET, std::ios::binary};
        EXPECT_TRUE(set.ParseFromIstream(&in)) << COURTHAND_DESCRIPTOR_SET;
        for (const pb::FileDescriptorProto& file : set.file())
            EXPECT_NE(pool_.BuildFile(file), nullptr) << file.name();
    }
    const pb::FileDescriptor* file(const std::string& name) const {
        return pool_.FindFileByName("courthand/v1/" + name + ".proto");
    }

  private:
    pb::DescriptorPool pool_;
};

std::string label(const pb::FieldDescriptor& field) {
    if (field.is_repeated()) return "repeated";
    if (const auto* oneof = field.real_containing_oneof()) return "oneof " + oneof->name();
    return field.has_presence() && field.message_type() == nullptr ? "optional" : "single";
}

std::string type(const pb::FieldDescriptor& field) {
    if (field.message_type() != nullptr) return field.message_type()->full_name();
    if (field.enum_type() != nullptr) return field.enum_type()->full_name();
    return field.type_name();
}

void add(const pb::EnumDescriptor& values, Lines& lines) {
    for (int i = 0; i < values.value_count(); ++i)
        lines[values.full_name() + "." + values.value(i)->name()] =
            std::to_string(values.value(i)->number());
}

void add(const pb::Descriptor& message, Lines& lines) {
    lines[message.full_name()] = "message";
    for (int i = 0; i < message.field_count(); ++i) {
        const pb::FieldDescriptor& field = *message.field(i);
        lines[field.full_name()] =
            std::to_string(field.number()) + " " + type(field) + " " + label(field);
    }
    for (int i = 0; i < message.enum_type_count(); ++i) add(*message.enum_type(i), lines);
    for (int i = 0; i < message.nested_type_count(); ++i) add(*message.nested_type(i), lines);
}

void add(const pb::ServiceDescriptor& service, Lines& lines) {
    for (int i = 0; i < service.method_count(); ++i) {
        const pb::MethodDescriptor& call = *service.method(i);
        lines[call.full_name()] = std::string{"rpc "} + (call.client_streaming() ? "stream " : "") +
                                  call.input_type()->full_name() + " -> " +
                                  (call.server_streaming() ? "stream " : "") +
                                  call.output_type()->full_name();
    }
}

Lines described(const Sources& sources) {
    Lines lines;
    for (const char* name : files) {
        const pb::FileDescriptor* file = sources.file(name);
        EXPECT_NE(file, nullptr) << name;
        if (file == nullptr) continue;
        for (int i = 0; i < file->message_type_count(); ++i) add(*file->message_type(i), lines);
        for (int i = 0; i < file->enum_type_count(); ++i) add(*file->enum_type(i), lines);
        for (int i = 0; i < file->service_count(); ++i) add(*file->service(i), lines);
    }
    return lines;
}

Lines golden() {
    Lines lines;
    std::ifstream in{COURTHAND_GOLDEN};
    for (std::string line; std::getline(in, line);) {
        const auto equals = line.find(" = ");
        if (line.empty() || line[0] == '#' || equals == std::string::npos) continue;
        lines[line.substr(0, equals)] = line.substr(equals + 3);
    }
    return lines;
}

/// Lines of `old` that are no more or are different, each with what it is now.
std::vector<std::string> broken(const Lines& old, const Lines& now) {
    std::vector<std::string> found;
    for (const auto& line : old) {
        const auto same = now.find(line.first);
        if (same == now.end())
            found.push_back(line.first + " = " + line.second + " vanished");
        else if (same->second != line.second)
            found.push_back(line.first + " was " + line.second + ", is " + same->second);
    }
    return found;
}

void write(const Lines& lines) {
    std::ofstream out{COURTHAND_GOLDEN};
    out << "# The wire format as devices in the field speak it: message.field = number type "
           "label,\n"
           "# enum.value = number, service.call = rpc request -> response.\n"
           "# Numbers and names here are for ever. After an addition write the list again with\n"
           "#   COURTHAND_WRITE_DESCRIPTORS=1 ctest -R wire_descriptors\n"
           "# which refuses to drop or change a line. A field that must go stays and is ignored.\n";
    for (const auto& line : lines) out << line.first << " = " << line.second << "\n";
}

TEST(Descriptors, NothingVanishedOrChanged) {
    const Sources sources;
    const Lines now = described(sources);
    const Lines old = golden();
    for (const std::string& line : broken(old, now)) ADD_FAILURE() << line;
    const char* wanted = std::getenv("COURTHAND_WRITE_DESCRIPTORS");
    if (wanted != nullptr && std::string{wanted} == "1") {
        if (!HasFailure()) write(now);
        return;
    }
    ASSERT_FALSE(old.empty()) << "no list at " << COURTHAND_GOLDEN;
    for (const auto& line : now)
        EXPECT_EQ(old.count(line.first), 1u)
            << line.first << " is new: write the list again (see its header)";
}

TEST(Descriptors, TheCheckFindsAChangeAndALoss) {
    const Lines old{{"m.a", "1 int32 single"}, {"m.b", "2 string single"}};
    EXPECT_TRUE(broken(old, old).empty());
    EXPECT_EQ(broken(old, {{"m.a", "1 int32 single"}}).size(), 1u);
    EXPECT_EQ(broken(old, {{"m.a", "3 int32 single"}, {"m.b", "2 string single"}}).size(), 1u);
    EXPECT_TRUE(
        broken(old,
               {{"m.a", "1 int32 single"}, {"m.b", "2 string single"}, {"m.c", "3 string single"}})
            .empty());
}

template <class Descriptor>
bool commented(const Descriptor& item) {
    pb::SourceLocation place;
    return item.GetSourceLocation(&place) && !place.leading_comments.empty();
}

void expect_comments(const pb::Descriptor& message) {
    EXPECT_TRUE(commented(message) || message.containing_type() != nullptr) << message.full_name();
    for (int i = 0; i < message.field_count(); ++i)
        EXPECT_TRUE(commented(*message.field(i))) << message.field(i)->full_name();
    for (int i = 0; i < message.nested_type_count(); ++i) expect_comments(*message.nested_type(i));
}

TEST(Descriptors, EveryMessageFieldAndCallHasAComment) {
    const Sources sources;
    for (const char* name : files) {
        const pb::FileDescriptor* file = sources.file(name);
        ASSERT_NE(file, nullptr) << name;
        for (int i = 0; i < file->message_type_count(); ++i)
            expect_comments(*file->message_type(i));
        for (int i = 0; i < file->service_count(); ++i)
            for (int k = 0; k < file->service(i)->method_count(); ++k)
                EXPECT_TRUE(commented(*file->service(i)->method(k)));
    }
}

TEST(Descriptors, EveryEnumBeginsUnspecified) {
    const Sources sources;
    for (const auto& line : described(sources)) {
        if (line.second != "0") continue;
        const std::string suffix = "_UNSPECIFIED";
        ASSERT_GE(line.first.size(), suffix.size());
        EXPECT_EQ(line.first.substr(line.first.size() - suffix.size()), suffix) << line.first;
    }
}

TEST(Descriptors, EveryCallHasItsOwnMessagesAndAHeader) {
    const Sources sources;
    std::map<std::string, int> uses;
    for (const char* name : files) {
        const pb::FileDescriptor* file = sources.file(name);
        for (int i = 0; i < file->service_count(); ++i) {
            for (int k = 0; k < file->service(i)->method_count(); ++k) {
                const pb::MethodDescriptor& call = *file->service(i)->method(k);
                ++uses[call.input_type()->full_name()];
                ++uses[call.output_type()->full_name()];
                const pb::FieldDescriptor* header = call.output_type()->FindFieldByNumber(1);
                ASSERT_NE(header, nullptr) << call.full_name();
                EXPECT_EQ(type(*header), "courthand.v1.ResponseHeader") << call.full_name();
            }
        }
    }
    for (const auto& use : uses) EXPECT_EQ(use.second, 1) << use.first;
}

}  // namespace
