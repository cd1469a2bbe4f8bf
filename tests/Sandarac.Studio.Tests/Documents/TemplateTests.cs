using Sandarac.Imaging;
using Sandarac.Studio.Documents.Building;
using Sandarac.Studio.Documents.Templates;

namespace Sandarac.Studio.Tests.Documents;

public sealed class TemplateTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("template-test-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Theory]
    [InlineData("""{"colour":"red"}""")]
    [InlineData("""{"leftOut":["identity"]}""")]
    [InlineData("""{"leftOut":["author"]}""")]
    [InlineData("""{"order":["no-such"]}""")]
    [InlineData("""{"logo":"../secret.png"}""")]
    [InlineData("""{"logo":"missing.png"}""")]
    [InlineData("""{"address":null}""")]
    [InlineData("null")]
    [InlineData("{")]
    public void A_faulty_template_is_refused(string json) => Assert.Equal("template-file", Assert.Throws<InputProblem>(() => Template(_folder, json)).Code);

    [Theory]
    [InlineData("""{"porpose":"x"}""")]
    [InlineData("""{"purpose":null}""")]
    [InlineData("""{"actions":[null]}""")]
    [InlineData("[]")]
    public void Faulty_fields_are_refused(string json)
    {
        var path = Path.Combine(_folder, "fields.json");
        File.WriteAllText(path, json);
        Assert.Equal("fields-file", Assert.Throws<InputProblem>(() => DocumentFields.Read(path)).Code);
    }

    internal static DocumentTemplate Template(string folder, string json)
    {
        var path = Path.Combine(folder, "template.json");
        File.WriteAllText(path, json);
        return DocumentTemplate.Read(path);
    }
}
