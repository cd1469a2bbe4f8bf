using Sandarac.Analysis.Lights;
using Sandarac.Analysis.Tests.Support;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Tests.Lights;

public class PhotographListTests(SpecimenFixture specimen)
{
    [Fact]
    public void The_specimens_own_list_agrees_with_what_its_names_say()
    {
        var list = PhotographList.Parse(File.ReadAllText(specimen.Photograph(PhotographList.FileName)));
        Assert.True(list.Count > 20);
        foreach (var (file, stated) in list)
        {
            var guess = LightGuess.From(file);
            Assert.Equal((stated.Light, stated.Subject, stated.AzimuthDegrees, stated.ElevationDegrees), (guess.Light, guess.Subject, guess.AzimuthDegrees, guess.ElevationDegrees));
            Assert.Equal(Confidence.Certain, guess.Confidence);
        }
    }

    [Theory]
    [InlineData("file,light,side,azimuth,elevation,subject\nVIS_01.tif,VIS,,,,painting\n\"rak, left.tif\",RL,w,270,15,\n")]
    [InlineData("\uFEFFfile;light;side;azimuth;elevation;subject\r\nVIS_01.tif;VIS;;;;painting\r\nrak, left.tif;RL;w;270;15;\r\n")]
    public void Known_lists_are_read(string text)
    {
        var list = PhotographList.Parse(text);
        Assert.Equal(Light.Visible, list["vis_01.tif"].Light);
        var raking = list["rak, left.tif"];
        Assert.Equal((Light.Raking, "W", 270.0, 15.0, Confidence.Certain), (raking.Light, raking.Side, raking.AzimuthDegrees, raking.ElevationDegrees, raking.Confidence));
        Assert.Equal("stated in photographs.csv, row 3", raking.Reason);
    }

    [Theory]
    [InlineData("", "list-empty", "")]
    [InlineData("light\nVIS\n", "list-column", "file")]
    [InlineData("file,lihgt\na.tif,VIS\n", "list-column", "lihgt")]
    [InlineData("file,light\na.tif,VIS\nb.tif,VISS\n", "list-light", "Row 3")]
    [InlineData("file,side\na.tif,up\n", "list-side", "Row 2")]
    [InlineData("file,azimuth\na.tif,400\n", "list-number", "Row 2")]
    [InlineData("file,elevation\na.tif,15deg\n", "list-number", "Row 2")]
    [InlineData("file,subject\na.tif,frame\n", "list-subject", "Row 2")]
    [InlineData("file\na.tif\nA.TIF\n", "list-twice", "Row 3")]
    [InlineData("file\n../a.tif\n", "list-file", "Row 2")]
    [InlineData("file\n/etc/a.tif\n", "list-file", "Row 2")]
    [InlineData("file,light\n,VIS\n", "list-file", "Row 2")]
    public void Invalid_lists_are_refused_with_the_row(string text, string code, string where)
    {
        var problem = Assert.Throws<InputProblem>(() => PhotographList.Parse(text));
        Assert.Equal(code, problem.Code);
        Assert.Contains(where, problem.Message, StringComparison.Ordinal);
    }
}
