// The program of a bench that shows a screen.
#include <benchmark/benchmark.h>

#include <QGuiApplication>
#include <QQuickStyle>
#include <cstdio>
#include <exception>

int main(int argc, char** argv) {
    benchmark::Initialize(&argc, argv);
    if (benchmark::ReportUnrecognizedArguments(argc, argv)) return 1;
    QGuiApplication app{argc, argv};
    QQuickStyle::setStyle(QStringLiteral("Basic"));
    try {
        benchmark::RunSpecifiedBenchmarks();
    } catch (const std::exception& error) {
        std::fprintf(stderr, "%s: %s\n", argv[0], error.what());
        return 1;
    }
    benchmark::Shutdown();
    return 0;
}
