using Sandarac.Studio;
using Sandarac.Studio.Tests;
using Xunit.MicrosoftTestingPlatform;

// Child process of the kill test: examines a folder and says which photographs are stored, each on a line, once they are.
if (args is ["examine", var folder, var home])
{
    using var studio = OpenStudio.At(home);
    Console.WriteLine("open");
    new Examining(studio).Examine(folder, new ExamineOptions { HeightMm = 100, WidthMm = 117, CornersOnly = true }, new StoredLines());
    Console.WriteLine("done");
    return 0;
}
// Child processes of the kill tests of packing and unpacking.
if (args is ["pack" or "unpack", _, _, _])
{
    using var studio = OpenStudio.At(args[1]);
    Console.WriteLine("open");
    if (args[0] == "pack") new Sandarac.Studio.Archive.Packing(studio, _ => []).Pack(Guid.Parse(args[2]), args[3]);
    else new Sandarac.Studio.Archive.Unpacking(studio).Unpack(args[3]);
    Console.WriteLine("done");
    return 0;
}
// Child process of the kill test of the treatment's log: writes entries and says which are stored.
if (args is ["log", var logged, var painted, var step])
{
    using var studio = OpenStudio.At(logged);
    Console.WriteLine("open");
    var entry = new Sandarac.Studio.Record.LogEntryContent { StepId = Guid.Parse(step), On = new DateOnly(2026, 3, 2), Who = "Marta Oud", What = "Swabs." };
    while (true) Console.WriteLine(new Sandarac.Studio.Treatment.TreatmentLog(studio).Create(Guid.Parse(painted), entry, "marta").Id);
}
return args.Any(a => a is "--server" or "--internal-msbuild-node")
    ? await TestPlatformTestFramework.RunAsync(args, SelfRegisteredExtensions.AddSelfRegisteredExtensions)
    : await Xunit.Runner.InProc.SystemConsole.ConsoleRunner.Run(args);

internal sealed class StoredLines : IProgress<ExamineProgress>
{
    public void Report(ExamineProgress value)
    {
        if (value.Step == "imported") Console.WriteLine(value.Item);
    }
}
