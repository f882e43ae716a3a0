using System.Text;
using SensorLab.TestData;

namespace SensorLab.Profiles.Tests;

public sealed class FigureBudgetTests
{
    private static readonly Figure Above = Figure.Normal(3.2, 0.004) with
    {
        Budget = new FigureBudget
        {
            StandardUncertainty = 0.08,
            Lower95 = 3.05,
            Upper95 = 3.36,
            DegreesOfFreedom = 9,
            Parts = [new BudgetPart(BudgetSource.Sampling, 0.004, BudgetOrigin.Set), new BudgetPart(BudgetSource.Meter, 0.0799, BudgetOrigin.Protocol)],
        },
    };

    [Fact]
    public void OfBody_OfAFigureWithABudget_HasItsIntervalAndKeepsTheValue()
    {
        Figure body = Above.OfBody();

        Assert.Equal((3.2, 0.08, 3.05, 3.36, 9.0), (body.Value!.Value, body.StandardUncertainty!.Value, body.Lower95!.Value, body.Upper95!.Value, body.DegreesOfFreedom!.Value));
        Assert.Null(body.Budget);
    }

    [Fact]
    public void OfBody_OfAFigureWithoutABudget_IsItself() => Assert.Equal(Figure.Normal(3.2, 0.004), Figure.Normal(3.2, 0.004).OfBody());

    [Fact]
    public void Profile_WithABudget_IsTheSameAfterWritingAndReading()
    {
        Figure read = SensorProfileReader.Read(new MemoryStream(Encoding.UTF8.GetBytes(ProfileText.Of(With(Above))))).IsoProfiles[0].Latitude.AboveEv!;

        Assert.Equal(Above with { Budget = null }, read with { Budget = null });
        Assert.Equal(Above.Budget! with { Parts = [] }, read.Budget! with { Parts = [] });
        Assert.Equal(Above.Budget!.Parts, read.Budget!.Parts);
    }

    [Fact]
    public void Profile_WithABudgetThatDoesNotHoldItsValue_IsRefused()
    {
        Figure wrong = Above with { Budget = Above.Budget! with { Upper95 = 3.1 } };

        Assert.ThrowsAny<Exception>(() => ProfileText.Of(With(wrong)));
    }

    private static SensorProfile With(Figure above)
    {
        SensorProfile sample = SampleProfiles.ThreeIsos();
        return sample with { IsoProfiles = [sample.IsoProfiles[0] with { Latitude = sample.IsoProfiles[0].Latitude with { AboveEv = above } }] };
    }
}
