// A database of one's own on the PostgreSQL that COURTHAND_TEST_DSN names, and a private cluster
// that a test may kill.
#pragma once

#include <filesystem>
#include <string>

namespace courthand::server::testing {

/// Made empty, dropped at the end. Throws std::runtime_error with a clear text when
/// COURTHAND_TEST_DSN is not set or nobody answers there: such a test fails, it is never skipped.
class TestDatabase {
  public:
    TestDatabase();
    ~TestDatabase();
    TestDatabase(const TestDatabase&) = delete;
    TestDatabase& operator=(const TestDatabase&) = delete;

    [[nodiscard]] const std::string& dsn() const noexcept { return dsn_; }
    [[nodiscard]] const std::string& name() const noexcept { return name_; }
    /// One statement, autocommitted; the first field of the first row, or nothing.
    std::string run(const std::string& sql) const;

  private:
    std::string admin_dsn_;
    std::string name_;
    std::string dsn_;
};

/// One statement on the database of this DSN, as `TestDatabase::run`.
std::string run_on(const std::string& dsn, const std::string& sql);

/// The same DSN with another database.
[[nodiscard]] std::string with_database(const std::string& dsn, const std::string& name);

/// A PostgreSQL cluster in a folder of its own, made by deploy/database. Not started at first.
class PrivateCluster {
  public:
    PrivateCluster();
    /// Stops it and removes the folder.
    ~PrivateCluster();
    PrivateCluster(const PrivateCluster&) = delete;
    PrivateCluster& operator=(const PrivateCluster&) = delete;

    void start();
    /// One statement by its superuser, as `TestDatabase::run`.
    [[nodiscard]] std::string administer(const std::string& sql) const;
    /// The same at a standby of this cluster.
    [[nodiscard]] std::string administer_at(int port, const std::string& sql) const;
    /// kill -9 of its first process.
    void kill9();
    /// Only known after the first start.
    [[nodiscard]] std::string dsn() const;
    [[nodiscard]] int port() const noexcept { return port_; }
    [[nodiscard]] const std::filesystem::path& folder() const noexcept { return folder_; }

  private:
    std::string command(const std::string& word) const;

    std::filesystem::path folder_;
    int port_ = 0;
};

}  // namespace courthand::server::testing
